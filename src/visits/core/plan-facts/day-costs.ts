import { type Day, daysBetween } from '../../../shared/day.js';

/** Minutes of work that a day of coming early or late counts as: common practice of planning, until what waiting costs is reckoned in money for all work. */
const EARLY_A_DAY = 6;
const LATE_A_DAY = 90;

export interface WorkDates {
  readonly earliestOn: Day | null;
  readonly bestOn: Day | null;
  readonly latestOn: Day | null;
}

/**
 * What doing work on each day of a plan costs more than on the cheapest of them, in minutes of work: nothing from the best day to the latest, 6 for each day before the
 * best, 90 for each day after the latest; days before the earliest are out. Where none of the dates is known every day is alike.
 *
 * @example dayCosts({ earliestOn: null, bestOn: '2026-12-02', latestOn: '2026-12-02' }, '2026-12-01', 4) // => [6, 0, 90, 180]
 * @example dayCosts({ earliestOn: null, bestOn: null, latestOn: '2026-11-29' }, '2026-12-01', 3) // => [0, 90, 180]
 */
export function dayCosts(dates: WorkDates, firstDay: Day, days: number): number[] {
  const earliest = dates.earliestOn === null ? 0 : daysBetween(firstDay, dates.earliestOn);
  const known = offsets(dates, firstDay);
  const costs = Array.from({ length: days }, (_, day) => {
    if (day < earliest) return Number.POSITIVE_INFINITY;
    const { early, late } = partsOf(known, day);
    return early + late;
  });
  const least = Math.min(...costs);
  return Number.isFinite(least) ? costs.map((cost) => cost - least) : costs;
}

/**
 * The two parts of what a day counts as, in minutes of work: what is thrown away of the life of what is there by coming before the best day, and what coming after the latest day
 * counts as.
 *
 * @example earlyAndLate({ earliestOn: null, bestOn: '2026-12-03', latestOn: '2026-12-05' }, '2026-12-01', 0) // => { "early": 12, "late": 0 }
 * @example earlyAndLate({ earliestOn: null, bestOn: '2026-12-03', latestOn: '2026-12-05' }, '2026-12-01', 6) // => { "early": 0, "late": 180 }
 */
export function earlyAndLate(dates: WorkDates, firstDay: Day, day: number): { early: number; late: number } {
  return partsOf(offsets(dates, firstDay), day);
}

/** The best and the latest day as numbers of the plan; where one is not known no day is early, or late. */
const offsets = ({ bestOn, latestOn }: WorkDates, firstDay: Day) => ({
  best: bestOn === null ? Number.NEGATIVE_INFINITY : daysBetween(firstDay, bestOn),
  latest: latestOn === null ? Number.POSITIVE_INFINITY : daysBetween(firstDay, latestOn),
});

const partsOf = ({ best, latest }: ReturnType<typeof offsets>, day: number) => ({
  early: Math.max(0, best - day) * EARLY_A_DAY,
  late: Math.max(0, day - latest) * LATE_A_DAY,
});
