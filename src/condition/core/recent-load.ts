import { deviation, mean } from 'd3-array';
import { type Day, dayPlus, daysBetween } from '../../shared/day.js';

/** Filtrate of a day over the recent weeks, the rate at which water brings a limit nearer. */
export interface RecentLoad {
  readonly kind: 'recent-load';
  readonly meanM3: number;
  readonly sdM3: number;
  readonly days: number;
}

const WINDOW_DAYS = 28;
const LEAST_DAYS = 7;

/**
 * Mean filtrate of a day over the four weeks before the last day of the record, which is not whole and not counted. A day within the window without any
 * filtration counts as 0: standby brings no limit nearer. At least seven days.
 *
 * Source: four whole weeks, so that every weekday counts alike (common practice).
 *
 * @example recentLoad([{ day: '2026-01-01', filtrateM3: 100 }, { day: '2026-01-08', filtrateM3: 50 }]) // => { "kind": "recent-load", "meanM3": 14.285714285714286, "sdM3": 37.79644730092272, "days": 7 }
 */
export function recentLoad(
  days: readonly { readonly day: Day; readonly filtrateM3: number | null }[],
): RecentLoad | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number } {
  const first = days[0];
  const last = days.at(-1);
  const record = first === undefined || last === undefined ? 0 : daysBetween(first.day, last.day);
  const length = Math.min(WINDOW_DAYS, record);
  if (last === undefined || length < LEAST_DAYS) return { kind: 'too-little-data', have: record, need: LEAST_DAYS };
  const known = new Map(days.map(({ day, filtrateM3 }) => [day, filtrateM3 ?? 0]));
  const loads = Array.from({ length }, (_, index) => known.get(dayPlus(last.day, index - length)) ?? 0);
  return { kind: 'recent-load', meanM3: mean(loads) ?? 0, sdM3: deviation(loads) ?? 0, days: length };
}
