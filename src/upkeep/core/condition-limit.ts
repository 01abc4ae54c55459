import type { Day } from '../../shared/day.js';

export interface FigureDay {
  readonly day: Day;
  readonly value: number | null;
}

export interface FigureLimit {
  readonly above: number | null;
  readonly below: number | null;
}

/**
 * The first day after the last time on which a figure of the daily condition lay above or below its limit: the day since when the task is due. Days without the figure
 * say nothing; the day of the last time itself does not count, since it may have been read before the work. `null` where the limit was not met. Days in order.
 *
 * Source: condition-based upkeep as EN 13306 means it (as quoted in a course text).
 *
 * @example firstMet([{ day: '2025-01-01', value: 0.9 }, { day: '2025-01-02', value: 0.74 }], '2024-12-01', { above: null, below: 0.75 }) // => { "day": "2025-01-02", "value": 0.74 }
 */
export function firstMet(days: readonly FigureDay[], after: Day, { above, below }: FigureLimit): { readonly day: Day; readonly value: number } | null {
  for (const { day, value } of days) {
    if (value === null || day <= after) continue;
    if ((above !== null && value > above) || (below !== null && value < below)) return { day, value };
  }
  return null;
}
