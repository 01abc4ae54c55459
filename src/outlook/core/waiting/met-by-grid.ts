import type { MetWithin } from '../days-to-limit.js';
import { DAYS_AHEAD } from '../horizon.js';

/**
 * The probability that a limit is met within any number of days, read from what an outlook stores for a fixed grid of days: a smooth curve through these points that never falls.
 * 0 today and before; beyond the last day of the grid what was said for it. Without stored points the limit is met already: 1 for every day.
 *
 * Between two points a cubic whose slopes are no steeper than twice the flatter of the neighbouring chords, so that it neither falls nor overshoots.
 *
 * Source: Steffen 1990, Astronomy and Astrophysics 239 (monotonic interpolation, from memory).
 *
 * @example metByGrid([0.1, 0.2])(1) // => 0.1
 * @example metByGrid([])(3) // => 1
 */
export function metByGrid(metByDay: readonly number[]): MetWithin {
  if (metByDay.length === 0) return () => 1;
  const days = [0, ...DAYS_AHEAD.slice(0, metByDay.length)];
  const met = [0, ...metByDay];
  const chord = (i: number) => ((met[i + 1] ?? 0) - (met[i] ?? 0)) / ((days[i + 1] ?? 1) - (days[i] ?? 0));
  const slopes = days.map((_, i) => {
    if (i === 0) return chord(0);
    if (i === days.length - 1) return chord(i - 1);
    const [before, after] = [chord(i - 1), chord(i)];
    const [left, right] = [(days[i] ?? 0) - (days[i - 1] ?? 0), (days[i + 1] ?? 0) - (days[i] ?? 0)];
    return Math.min(2 * before, 2 * after, (before * right + after * left) / (left + right));
  });
  return (day) => {
    if (!(day > 0)) return 0;
    const next = days.findIndex((known) => known >= day);
    if (next < 0) return met.at(-1) ?? 0;
    const i = Math.max(0, next - 1);
    const width = (days[i + 1] ?? 1) - (days[i] ?? 0);
    const along = (day - (days[i] ?? 0)) / width;
    const [from, to, slopeFrom, slopeTo] = [met[i] ?? 0, met[i + 1] ?? 0, width * (slopes[i] ?? 0), width * (slopes[i + 1] ?? 0)];
    const value = from + along * (slopeFrom + along * (3 * (to - from) - 2 * slopeFrom - slopeTo + along * (slopeFrom + slopeTo - 2 * (to - from))));
    return Math.min(1, Math.max(0, value));
  };
}
