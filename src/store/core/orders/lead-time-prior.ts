import { normalCdf } from '../../../outlook/core/normal.js';

/** How far lead times of one supplier spread around what it states, before anything was received: standard deviation of the logarithm. Common practice. */
const SPREAD_STATED = 0.3;
/** Where nothing is stated: two weeks, and far less sure. */
const DAYS_ASSUMED = 14;
const SPREAD_ASSUMED = 0.6;
/** The share beyond the longest day, which is put onto it */
const TAIL = 1e-4;
const LONGEST_DAYS = 1000;

/**
 * What is thought of a lead time before anything was received: the probability of each day from 0 on, lognormal around the stated days as its median.
 * A day holds what lies within half a day of it.
 *
 * @example leadTimePrior(0).length // => 2
 * @example leadTimePrior(10).findIndex((p, day, all) => all.slice(0, day + 1).reduce((a, b) => a + b, 0) >= 0.5) // => 10
 */
export function leadTimePrior(statedDays: number | null): number[] {
  const spread = statedDays === null ? SPREAD_ASSUMED : SPREAD_STATED;
  const median = Math.max(statedDays ?? DAYS_ASSUMED, 0.25);
  const cdf = (days: number) => (days <= 0 ? 0 : normalCdf(Math.log(days / median) / spread));
  const pmf: number[] = [];
  for (let day = 0; day < LONGEST_DAYS && 1 - cdf(day - 0.5) > TAIL; day++) pmf.push(cdf(day + 0.5) - cdf(day - 0.5));
  const last = pmf.length - 1;
  const sum = pmf.reduce((total, share) => total + share, 0);
  pmf[last] = (pmf[last] ?? 0) + 1 - sum;
  return pmf;
}
