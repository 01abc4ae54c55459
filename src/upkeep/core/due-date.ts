import { type Day, dayPlus } from '../../shared/day.js';
import { countedDays, dayAfterCounted, type LaidUpSpan } from './laid-up.js';
import { EARLY_SHARE, type IntervalBase, nextDueAt } from './next-due-at.js';

export const USE_LIMITS = ['run hours', 'starts', 'cycles'] as const;
export type UseLimit = (typeof USE_LIMITS)[number];
export type LimitName = UseLimit | 'calendar';

export interface DueRule {
  /** How much use may lie between two times; a limit that is not named does not hold */
  readonly use: Readonly<Partial<Record<UseLimit, number>>>;
  readonly days: number | null;
  readonly base: IntervalBase;
  /** Days after the due day that do no harm; `null`: a fifth of the interval, 28 at most */
  readonly graceDays: number | null;
  /** Days laid up, which do not count for the calendar; none by default */
  readonly notCounted?: readonly LaidUpSpan[];
}

/** A limit whose day comes from elsewhere: an outlook, or the first day on which the condition met it. */
export interface DatedLimit {
  readonly from: 'outlook' | 'condition';
  /** As the due names it */
  readonly limit: string;
  /** `null`: it is not met, or not within what the outlook looks at */
  readonly dueOn: Day | null;
  readonly earliestOn: Day | null;
  readonly latestOn: Day | null;
  /** What it says, to stand in a sentence */
  readonly inWords: string;
}

/** When the task was done last, or when the part was fitted; what the counters of its life showed then; and, for a fixed plan, where it had been due. */
export interface LastDone {
  readonly day: Day;
  readonly use: Readonly<Partial<Record<UseLimit, number>>>;
  readonly plannedDay?: Day | null;
  readonly plannedUse?: Readonly<Partial<Record<UseLimit, number>>>;
  /** What happened on the day; a service entry by default */
  readonly from?: LastFrom;
}

export type LastFrom = 'service entry' | 'record' | 'fitted' | 'commissioned' | 'laid up' | 'not known';

/** A counter of the life of a part today: its latest value, the day of it, and what is added on a day; unknown use is `null`. */
export interface LifeCounter {
  readonly life: number;
  readonly asOf: Day;
  readonly dailyUse: number | null;
}

export interface LimitDue {
  readonly limit: LimitName;
  readonly unit: 'h' | 'starts' | 'cycles' | 'days';
  readonly interval: number;
  /** Counter at the last time (days: 0) and now, `null` where it is not read */
  readonly lastAt: number | null;
  readonly now: number | null;
  readonly dailyUse: number | null;
  /** Until the limit; negative beyond it */
  readonly left: number | null;
  readonly dueOn: Day | null;
}

export interface DueDate {
  readonly dueOn: Day | null;
  /** The name of the one that comes first */
  readonly limit: string | null;
  readonly earliestOn: Day | null;
  readonly latestOn: Day | null;
  readonly byLimit: readonly LimitDue[];
  readonly byDate: readonly DatedLimit[];
  readonly lastDoneOn: Day;
  readonly lastFrom: LastFrom;
  readonly base: IntervalBase;
}

const UNITS = { 'run hours': 'h', starts: 'starts', cycles: 'cycles' } as const;
const MOST_GRACE_DAYS = 28;
const GRACE_SHARE = 0.2;

/**
 * Due date of a task with limits of use and of time, whichever comes first.
 *
 * Use: day of the counter + floor((last + interval - now) / daily use); it lies in the past where the limit is passed. With no use, or none known, the
 * day of use is undefined and the calendar alone counts; a limit that is passed all the same is due on the day of the reading. Calendar: last day + interval.
 * Days laid up do not count for the calendar where the rule says so: the due day shifts, and there is none while the skid is laid up. Limits of outlook and condition come with
 * their days. Of two limits on one day the use is named first, then the calendar. Earliest: a tenth of the interval before; latest: the grace after.
 *
 * Source: two-limit rule and average daily use, common practice; grace of a fifth of the interval and 28 days at most as quoted from on-time rules in a practitioner's page.
 *
 * @example dueDate({ use: { 'run hours': 2000 }, days: 365, base: 'floating', graceDays: 0 }, { day: '2025-01-10', use: { 'run hours': 4000 } }, { 'run hours': { life: 4900, asOf: '2025-03-01', dailyUse: 18 } }, '2025-03-01').dueOn // => "2025-05-01"
 */
export function dueDate(
  rule: DueRule,
  last: LastDone,
  counters: Readonly<Partial<Record<UseLimit, LifeCounter>>>,
  today: Day,
  byDate: readonly DatedLimit[] = [],
): DueDate {
  const byUse = USE_LIMITS.flatMap((limit) => {
    const interval = rule.use[limit];
    return interval === undefined ? [] : [dueByUse(limit, interval, rule.base, last, counters[limit])];
  });
  const byLimit = rule.days === null ? byUse : [...byUse, dueByCalendar(rule.days, rule, last, today)];
  const base = { byLimit, byDate, lastDoneOn: last.day, lastFrom: last.from ?? 'service entry', base: rule.base };
  const first = soonest([...byLimit, ...byDate]);
  if (first?.dueOn == null) return { ...base, dueOn: null, limit: null, earliestOn: null, latestOn: null };
  if ('from' in first) return { ...base, dueOn: first.dueOn, limit: first.limit, earliestOn: first.earliestOn, latestOn: first.latestOn };
  const intervalDays = first.limit === 'calendar' ? first.interval : first.dailyUse ? first.interval / first.dailyUse : 0;
  return {
    ...base,
    dueOn: first.dueOn,
    limit: first.limit,
    earliestOn: dayPlus(first.dueOn, -Math.min(MOST_GRACE_DAYS, Math.floor(EARLY_SHARE * intervalDays))),
    latestOn: dayPlus(first.dueOn, rule.graceDays ?? usualGraceDays(intervalDays)),
  };
}

function soonest<T extends { readonly dueOn: Day | null }>(limits: readonly T[]): T | null {
  return limits.reduce<T | null>((first, due) => (due.dueOn !== null && (first?.dueOn == null || due.dueOn < first.dueOn) ? due : first), null);
}

/**
 * Grace that is usual for an interval: a fifth of it, rounded, 28 days at most.
 *
 * @example usualGraceDays(30) // => 6
 * @example usualGraceDays(365) // => 28
 */
export function usualGraceDays(intervalDays: number): number {
  return Math.min(MOST_GRACE_DAYS, Math.round(GRACE_SHARE * intervalDays));
}

function dueByUse(limit: UseLimit, interval: number, base: IntervalBase, last: LastDone, counter: LifeCounter | undefined): LimitDue {
  const lastAt = last.use[limit] ?? null;
  const known = { limit, unit: UNITS[limit], interval, lastAt, now: counter?.life ?? null, dailyUse: counter?.dailyUse ?? null };
  if (lastAt === null || counter === undefined) return { ...known, left: null, dueOn: null };
  const left = nextDueAt({ base, doneAt: lastAt, plannedAt: last.plannedUse?.[limit] ?? null, interval }) - counter.life;
  const { asOf, dailyUse } = counter;
  if (dailyUse !== null && dailyUse > 0) return { ...known, left, dueOn: dayPlus(asOf, Math.floor(left / dailyUse)) };
  return { ...known, left, dueOn: left <= 0 ? asOf : null };
}

function dueByCalendar(days: number, { base, notCounted = [] }: DueRule, last: LastDone, today: Day): LimitDue {
  const plannedAt = last.plannedDay == null ? null : countedDays(last.day, last.plannedDay, notCounted);
  const dueAt = nextDueAt({ base, doneAt: 0, plannedAt, interval: days });
  const now = countedDays(last.day, today, notCounted);
  const dueOn = dayAfterCounted(last.day, dueAt, notCounted);
  return { limit: 'calendar', unit: 'days', interval: days, lastAt: 0, now, dailyUse: 1, left: dueAt - now, dueOn };
}
