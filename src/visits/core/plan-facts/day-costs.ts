import { type Day, daysBetween } from '../../../shared/day.js';

/** Minutes of work that a day of coming early or late counts as: common practice of planning, where nobody knows what waiting costs. */
const EARLY_A_DAY = 6;
const LATE_A_DAY = 90;

export interface WorkDates {
  readonly earliestOn: Day | null;
  readonly bestOn: Day | null;
  readonly latestOn: Day | null;
  /** What each day of the plan counts as more than the cheapest of them, by what waiting costs, in minutes of work: in place of best and latest day; left out: not known */
  readonly waiting?: readonly number[] | undefined;
}

/**
 * What doing work on each day of a plan costs more than on the cheapest of them, in minutes of work: nothing from the best day to the latest, 6 for each day before the
 * best, 90 for each day after the latest; where it is known what waiting costs, as much as that. Days before the earliest are out. Where nothing is known every day is alike.
 *
 * @example dayCosts({ earliestOn: null, bestOn: '2026-12-02', latestOn: '2026-12-02' }, '2026-12-01', 4) // => [6, 0, 90, 180]
 * @example dayCosts({ earliestOn: null, bestOn: null, latestOn: '2026-11-29' }, '2026-12-01', 3) // => [0, 90, 180]
 * @example dayCosts({ earliestOn: null, bestOn: null, latestOn: '2026-11-29', waiting: [20, 0, 45] }, '2026-12-01', 3) // => [20, 0, 45]
 */
export function dayCosts(dates: WorkDates, firstDay: Day, days: number): number[] {
  const earliest = dates.earliestOn === null ? 0 : daysBetween(firstDay, dates.earliestOn);
  const { best, latest } = offsets(dates, firstDay);
  const costs = Array.from({ length: days }, () => Number.POSITIVE_INFINITY);
  let least = Number.POSITIVE_INFINITY;
  for (let day = Math.max(0, earliest); day < days; day += 1) {
    const cost = dates.waiting === undefined ? earlyBy(best, day) + lateBy(latest, day) : waitingOn(dates.waiting, day);
    costs[day] = cost;
    least = Math.min(least, cost);
  }
  for (let day = Math.max(0, earliest); day < days; day += 1) costs[day] = (costs[day] as number) - least;
  return costs;
}

/**
 * The two parts of what a day counts as, in minutes of work: what is thrown away of the life of what is there by coming before the best day, and what coming after the latest day
 * counts as. By what waiting costs, days before the cheapest one are early and days after it late.
 *
 * @example earlyAndLate({ earliestOn: null, bestOn: '2026-12-03', latestOn: '2026-12-05' }, '2026-12-01', 0) // => { "early": 12, "late": 0 }
 * @example earlyAndLate({ earliestOn: null, bestOn: '2026-12-03', latestOn: '2026-12-05' }, '2026-12-01', 6) // => { "early": 0, "late": 180 }
 * @example earlyAndLate({ earliestOn: null, bestOn: null, latestOn: null, waiting: [20, 0, 45] }, '2026-12-01', 0) // => { "early": 20, "late": 0 }
 */
export function earlyAndLate(dates: WorkDates, firstDay: Day, day: number): { early: number; late: number } {
  return dates.waiting === undefined ? partsOf(offsets(dates, firstDay), day) : partsOfWaiting(dates.waiting, day);
}

/** The best and the latest day as numbers of the plan; where one is not known no day is early, or late. */
const offsets = ({ bestOn, latestOn }: WorkDates, firstDay: Day) => ({
  best: bestOn === null ? Number.NEGATIVE_INFINITY : daysBetween(firstDay, bestOn),
  latest: latestOn === null ? Number.POSITIVE_INFINITY : daysBetween(firstDay, latestOn),
});

const earlyBy = (best: number, day: number) => Math.max(0, best - day) * EARLY_A_DAY;
const lateBy = (latest: number, day: number) => Math.max(0, day - latest) * LATE_A_DAY;
const waitingOn = (waiting: readonly number[], day: number) => waiting[day] ?? waiting.at(-1) ?? 0;

function partsOf({ best, latest }: ReturnType<typeof offsets>, day: number): { early: number; late: number } {
  return { early: earlyBy(best, day), late: lateBy(latest, day) };
}

function partsOfWaiting(waiting: readonly number[], day: number): { early: number; late: number } {
  const here = waitingOn(waiting, day);
  return day < waiting.indexOf(Math.min(...waiting)) ? { early: here, late: 0 } : { early: 0, late: here };
}
