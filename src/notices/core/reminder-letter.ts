import { dayInWords } from '../../shared/day.js';
import type { VisitFact } from './facts.js';
import { type Letter, letter } from './letter.js';
import { noticeWords } from './words.js';

const words = noticeWords.reminder;

/**
 * Reminds a client of a visit that was promised: when, who comes, what for. The subject tells the day and nothing else of the client's.
 *
 * @param readOn the day on which it is read
 */
export function reminderLetter({ onDay, startTime, siteName, people, noteToClient, jobs }: VisitFact, readOn: string, address: string | null): Letter {
  const when = noticeWords.visit(onDay, startTime, readOn);
  const first = [words.first(when, siteName), ...(people.length === 0 ? [] : [words.people(people)]), ...(noteToClient === '' ? [] : [noteToClient])];
  const work = jobs.length === 0 ? [] : [{ heading: words.work, lines: jobs.map(({ skidName, title }) => `${skidName}: ${title}`) }];
  const open = address === null ? [] : [noticeWords.open(address)];
  return letter(words.subject(dayInWords(onDay, readOn)), first.join('\n'), work, [...open, words.why]);
}
