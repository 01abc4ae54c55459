import { median } from 'd3-array';
import type { Day } from '../../shared/day.js';

interface DayValue {
  readonly day: Day;
  readonly value: number;
}

/** One wrong reading does not meet a limit: the middle one of three does. */
const JUDGED_BY = 3;

/**
 * The day since which a limit has been met without a break, judged by the median of each value and the two before it; `null` where it is not met now.
 *
 * Source: common practice.
 *
 * @example metSince([{ day: '2025-01-01', value: 4 }, { day: '2025-01-02', value: 6 }, { day: '2025-01-03', value: 7 }], (value) => value >= 6) // => "2025-01-03"
 */
export function metSince(points: readonly DayValue[], isMet: (value: number) => boolean): Day | null {
  let since: Day | null = null;
  for (let i = points.length - 1; i >= 0; i--) {
    const judged = median(points.slice(Math.max(0, i + 1 - JUDGED_BY), i + 1), ({ value }) => value);
    const day = points[i]?.day;
    if (judged === undefined || day === undefined || !isMet(judged)) break;
    since = day;
  }
  return since;
}
