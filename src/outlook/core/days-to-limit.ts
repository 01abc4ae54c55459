import { mean as average } from 'd3-array';
import { DAYS_AHEAD, HORIZON_DAYS } from './horizon.js';
import { DAYS_ALIKE, NINTHS } from './ninths.js';
import type { DailyLoad, LimitForecast } from './outlook.js';

/** The probability that a limit is met within so many days, of any part of a day. */
export type MetWithin = (days: number) => number;

/**
 * From load to days: turns the probability that a limit is met by a further load into the probability that it is met within a number of days.
 *
 * The load of d days ahead is taken as normal, with mean (daily mean) d and variance sd^2 (7 d^2 / days + 7 d): what is not known of the mean, and what days
 * to come will differ. `metByLoad` is averaged over nine equally likely such loads. Never falls with the days nor with the daily mean, since `metByLoad`
 * does not.
 *
 * Source: common practice; the nine-point average is our own.
 *
 * @example metWithin((load) => Math.min(1, load / 100), { mean: 10, sd: 0, days: 30 })(5) // => 0.5
 */
export function metWithin(metByLoad: (load: number) => number, dailyLoad: DailyLoad): MetWithin {
  const { mean, sd, days: known } = dailyLoad;
  return (days) => {
    const spread = sd * Math.sqrt(DAYS_ALIKE * days * (days / Math.max(known, DAYS_ALIKE) + 1));
    return average(NINTHS, (z) => metByLoad(Math.max(0, mean * days + z * spread))) ?? 0;
  };
}

/** Quantiles are found to about a minute and a half, well below what they mean. */
const EXACT_TO_DAYS = 0.001;

/**
 * The days within which a limit is met with a given probability, by halving; `null` where that lies beyond `to` days.
 *
 * @example daysUntil((days) => days / 128, 0.5, 128) // => 64
 */
export function daysUntil(met: MetWithin, probability: number, to: number, from = 0): number | null {
  if (met(to) < probability) return null;
  let [low, high] = [from, to];
  while (high - low > EXACT_TO_DAYS) {
    const middle = (low + high) / 2;
    if (met(middle) < probability) low = middle;
    else high = middle;
  }
  return high;
}

/**
 * Reads the stored form of a forecast from the probability of every number of days: the fixed grid, what lies beyond it, and three quantiles.
 *
 * @example limitForecast((days) => days / 1460).shareBeyond // => 0.5
 */
export function limitForecast(met: MetWithin): LimitForecast {
  const metByDay = DAYS_AHEAD.map(met);
  const quantile = (probability: number) => {
    const after = metByDay.findIndex((share) => share >= probability);
    return after < 0 ? null : daysUntil(met, probability, DAYS_AHEAD[after] ?? HORIZON_DAYS, DAYS_AHEAD[after - 1] ?? 0);
  };
  return { metByDay, shareBeyond: 1 - (metByDay.at(-1) ?? 0), p10Days: quantile(0.1), p50Days: quantile(0.5), p90Days: quantile(0.9) };
}
