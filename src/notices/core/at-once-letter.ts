import type { BreakdownFact } from './facts.js';
import { type Letter, letter, oneLine } from './letter.js';
import { TELL_AGAIN_MIN } from './told-again.js';
import { noticeWords } from './words.js';

export interface TellingFact extends BreakdownFact {
  /** In the words of whoever asked */
  readonly request: string;
  /** 0: the first */
  readonly telling: number;
}

const words = noticeWords.atOnce;

/** What cannot wait, in few words. The subject, which a locked telephone shows to everybody, names the skid and nothing else of the client's. */
export function atOnceLetter(
  { telling, severity, skidName, siteName, clientName, no, title, request, noticedAt, timeZone }: TellingFact,
  address: string | null,
): Letter {
  const said = [title, request].map(oneLine).filter((text) => text !== '');
  const first = [oneLine(words.what(severity, skidName, siteName, clientName)), words.since(noticedAt, timeZone), ...said].join('\n');
  const take = address === null ? words.take(no) : words.takeAt(no, address);
  return letter(words.subject(severity, skidName, telling), first, [], [take, words.again(TELL_AGAIN_MIN), '', words.why]);
}
