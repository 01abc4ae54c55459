import { median } from 'd3-array';
import { type Day, daysBetween } from '../../shared/day.js';

const WITHIN_DAYS = 7;
const VALUES = 3;

/** Daily permeability, day by day from the first. */
export interface DailySeries {
  readonly firstDay: Day | null;
  readonly values: readonly (number | null)[];
}

/**
 * Permeability before and after a recovery clean: what the clean gave back.
 *
 * Median of the last three days with a value within a week before the clean, and of the first three within a week after it; the day of the clean mixes both and is
 * not used. Behaviour at the edges: a side without any value is null.
 *
 * Source: windows by common practice, the same as those of the baseline after a recovery clean.
 *
 * @example recoveryOf({ firstDay: '2026-01-01', values: [100, 98, 96, 50, 130, null, 126] }, '2026-01-04') // => { "before": 98, "after": 128 }
 */
export function recoveryOf({ firstDay, values }: DailySeries, day: Day): { before: number | null; after: number | null } {
  if (firstDay === null) return { before: null, after: null };
  const at = daysBetween(firstDay, day);
  const known = (days: readonly number[]) => days.flatMap((each) => values[each] ?? []).slice(0, VALUES);
  const steps = Array.from({ length: WITHIN_DAYS }, (_, step) => step + 1);
  return {
    before: median(known(steps.map((step) => at - step))) ?? null,
    after: median(known(steps.map((step) => at + step))) ?? null,
  };
}
