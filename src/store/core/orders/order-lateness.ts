import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays';
import type { LeadTime } from './lead-time.js';

export interface AwaitedOrder {
  readonly sentOn: Date;
  readonly promisedOn: Date | null;
  /** The first day on which something of it is needed */
  readonly neededOn: Date | null;
}

export interface Lateness {
  /** By what the supplier promised, else by what is stated or learnt: the day by which it should be here */
  readonly expectedOn: Date;
  /** Whose word that is */
  readonly by: 'promise' | 'stated' | 'learnt';
  /** Above zero: it is late */
  readonly lateDays: number;
  /** How many days it is expected after it is needed; null: nobody said when */
  readonly afterNeedDays: number | null;
  /** Probability that it comes within a week, given that it has not come yet; null: by what is known it should long be here */
  readonly withinWeek: number | null;
}

const DAY_MS = 86_400_000;
const plusDays = (day: Date, days: number) => new Date(day.getTime() + days * DAY_MS);

/**
 * Whether an order that has not all come is late, and how likely it comes soon. Without a promise it is late by the stated lead time,
 * and where none is stated, by the 90 % day of what was learnt.
 */
export function orderLateness({ sentOn, promisedOn, neededOn }: AwaitedOrder, { pmf, statedDays, p90 }: LeadTime, today: Date): Lateness {
  const by = promisedOn !== null ? 'promise' : statedDays !== null ? 'stated' : 'learnt';
  const expectedOn = promisedOn ?? plusDays(sentOn, statedDays ?? p90);
  const age = differenceInCalendarDays(today, sentOn);
  const later = pmf.slice(Math.max(0, age)).reduce((sum, share) => sum + share, 0);
  const soon = pmf.slice(Math.max(0, age), Math.max(0, age + 7)).reduce((sum, share) => sum + share, 0);
  return {
    expectedOn,
    by,
    lateDays: Math.max(0, differenceInCalendarDays(today, expectedOn)),
    afterNeedDays: neededOn === null ? null : differenceInCalendarDays(expectedOn < today ? today : expectedOn, neededOn),
    withinWeek: later < 1e-9 ? null : soon / later,
  };
}
