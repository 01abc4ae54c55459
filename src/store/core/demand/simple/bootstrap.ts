import { convolvedTimes } from '../pmf/convolve.js';
import type { Pmf } from '../types.js';

/**
 * Need of so many months drawn from the months of the past, each draw independent of the others: the distribution that resampling without end would give,
 * reckoned without a random number. `window` takes the last months only; without history nothing is needed.
 *
 * @example [...bootstrap([0, 1], 2)] // => [0.25, 0.5, 0.25]
 * @example [...bootstrap([9, 0, 1], 1, 2)] // => [0.5, 0.5]
 */
export function bootstrap(series: ArrayLike<number>, months: number, window = Number.POSITIVE_INFINITY): Pmf {
  const from = Math.max(0, series.length - window);
  const kept = series.length - from;
  if (kept === 0) return Float64Array.of(1);
  let most = 0;
  for (let t = from; t < series.length; t++) most = Math.max(most, series[t] ?? 0);
  const month = new Float64Array(most + 1);
  for (let t = from; t < series.length; t++) month[series[t] ?? 0] = (month[series[t] ?? 0] ?? 0) + 1 / kept;
  return convolvedTimes(month, months);
}
