import { type Day, dayInWords } from '../../shared/day.js';
import type { AnswerFact } from './facts.js';
import { type Letter, letter, oneLine } from './letter.js';
import { noticeWords } from './words.js';

const words = noticeWords.answers;

/**
 * What a client said to a proposed day, in one line: what would suit stands last, where they named days.
 *
 * @param readOn the day on which it is read
 */
export function answerLine({ visitNo, onDay, startTime, siteName, clientName, answer, reason, wishedDays, answeredBy }: AnswerFact, readOn: Day): string {
  const when = noticeWords.visit(onDay, startTime, readOn);
  const wished = wishedDays.length === 0 ? [] : [words.wished(wishedDays.map((day) => dayInWords(day, readOn)))];
  const said = answer === 'declined' ? words.declined(answeredBy, oneLine(reason)) : words.confirmed(answeredBy);
  return [`${words.visit(visitNo)}, ${siteName} (${clientName}), ${when}: ${said}`, ...wished].join('; ');
}

/** Tells a manager at once that a day does not suit. The subject, which a locked telephone shows to everybody, tells the day and nothing else of the client's. */
export function declineLetter(fact: AnswerFact, readOn: Day, address: string | null): Letter {
  const open = address === null ? words.look(fact.visitNo) : noticeWords.open(address);
  return letter(words.subject(dayInWords(fact.onDay, readOn)), `${oneLine(answerLine(fact, readOn))}.`, [], [open, '', words.why]);
}
