import { type Day, dayInWords, dayPlus } from '../../../shared/day.js';
import type { NextClean } from './next-clean.js';

const FEWEST_INTERVALS = 3;
const LEAST_SHARE = 0.05;

/**
 * When the next recovery clean is to be expected, in a sentence; `null` with fewer than three intervals to go by.
 *
 * @example cleanInWords({ p10: 10, p50: 20, p90: 40, bySignal: 0, intervals: 5 }, '2026-01-01') // => "Going by 5 intervals between recovery cleans, the next one is likely between 11 Jan and 10 Feb, about 21 Jan."
 * @example cleanInWords({ p10: 10, p50: 20, p90: 40, bySignal: 0, intervals: 2 }, '2026-01-01') // => null
 */
export function cleanInWords({ p10, p50, p90, bySignal, intervals }: NextClean, originDay: Day): string | null {
  if (intervals < FEWEST_INTERVALS) return null;
  const on = (days: number) => dayInWords(dayPlus(originDay, days), originDay);
  const by = bySignal < LEAST_SHARE ? '' : ' and by how far the level has come down';
  return `Going by ${intervals} intervals between recovery cleans${by}, the next one is likely between ${on(Math.floor(p10))} and ${on(Math.ceil(p90))}, about ${on(Math.round(p50))}.`;
}
