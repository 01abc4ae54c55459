import { type Day, daysBetween } from '../../../shared/day.js';

/** Minutes of work that a day of coming early or late counts as: common practice of planning, until what waiting costs is reckoned in money for all work. */
const EARLY_A_DAY = 6;
const LATE_A_DAY = 90;

/**
 * What doing work on each day of a plan costs more than on the cheapest of them, in minutes of work: nothing from the best day to the latest, 6 for each day before the
 * best, 90 for each day after the latest; days before the earliest are out. Where none of the dates is known every day is alike.
 *
 * @example dayCosts({ earliestOn: null, bestOn: '2026-12-02', latestOn: '2026-12-02' }, '2026-12-01', 4) // => [6, 0, 90, 180]
 * @example dayCosts({ earliestOn: null, bestOn: null, latestOn: '2026-11-29' }, '2026-12-01', 3) // => [0, 90, 180]
 */
export function dayCosts(
  { earliestOn, bestOn, latestOn }: { readonly earliestOn: Day | null; readonly bestOn: Day | null; readonly latestOn: Day | null },
  firstDay: Day,
  days: number,
): number[] {
  const costs = Array.from({ length: days }, (_, day) => {
    if (earliestOn !== null && day < daysBetween(firstDay, earliestOn)) return Number.POSITIVE_INFINITY;
    const early = bestOn === null ? 0 : Math.max(0, daysBetween(firstDay, bestOn) - day);
    const late = latestOn === null ? 0 : Math.max(0, day - daysBetween(firstDay, latestOn));
    return early * EARLY_A_DAY + late * LATE_A_DAY;
  });
  const least = Math.min(...costs);
  return Number.isFinite(least) ? costs.map((cost) => cost - least) : costs;
}
