import type { Pmf } from '../types.js';

/** What a distribution leaves out at its end, at most; that share is counted in its last entry. */
export const TAIL = 1e-7;
/** Longer needs are counted as this many: an item that is needed by the ten thousand is counted in packs. */
export const LONGEST = 1 << 14;

/**
 * Mean of a distribution of pieces.
 *
 * @example meanOf([0.5, 0.3, 0.2]) // => 0.7
 */
export function meanOf(pmf: ArrayLike<number>): number {
  let sum = 0;
  for (let k = 1; k < pmf.length; k++) sum += k * (pmf[k] ?? 0);
  return sum;
}

/**
 * Variance of a distribution of pieces.
 *
 * @example varianceOf([0.5, 0, 0.5]) // => 1
 */
export function varianceOf(pmf: ArrayLike<number>): number {
  const mean = meanOf(pmf);
  let sum = 0;
  for (let k = 0; k < pmf.length; k++) sum += (k - mean) ** 2 * (pmf[k] ?? 0);
  return sum;
}

/**
 * Probability that no more than so many are needed. Below 0 it is 0.
 *
 * @example atMost([0.5, 0.3, 0.2], 1) // => 0.8
 */
export function atMost(pmf: ArrayLike<number>, pieces: number): number {
  if (pieces >= pmf.length - 1) return 1;
  let sum = 0;
  for (let k = 0; k <= pieces; k++) sum += pmf[k] ?? 0;
  return Math.min(1, sum);
}

/**
 * The least stock that is enough with at least this probability.
 *
 * @example quantileOf([0.5, 0.3, 0.2], 0.8) // => 1
 * @example quantileOf([0.5, 0.3, 0.2], 0.81) // => 2
 */
export function quantileOf(pmf: ArrayLike<number>, probability: number): number {
  let sum = 0;
  for (let k = 0; k < pmf.length; k++) {
    sum += pmf[k] ?? 0;
    if (sum >= probability - 1e-12) return k;
  }
  return Math.max(0, pmf.length - 1);
}

/**
 * Mean of what a stock falls short by: the sum over k above it of (k - stock) p(k). A stock below 0 is short before anything is needed.
 *
 * @example shortfall([0.5, 0.3, 0.2], 1) // => 0.2
 * @example shortfall([0.5, 0.3, 0.2], -1) // => 1.7
 */
export function shortfall(pmf: ArrayLike<number>, stock: number): number {
  let sum = 0;
  for (let k = Math.max(0, stock + 1); k < pmf.length; k++) sum += (k - stock) * (pmf[k] ?? 0);
  return sum;
}

/** The same without the entries at the end that together weigh less than TAIL, and scaled to 1. */
export function trimmed(pmf: Pmf): Pmf {
  let last = pmf.length - 1;
  let tail = 0;
  while (last > 0 && tail + (pmf[last] ?? 0) < TAIL) tail += pmf[last--] ?? 0;
  if (last === pmf.length - 1) return pmf;
  const short = pmf.slice(0, last + 1);
  short[last] = (short[last] ?? 0) + tail;
  return short;
}

/** Exactly so many, without doubt. */
export function always(pieces: number): Pmf {
  const pmf = new Float64Array(pieces + 1);
  pmf[pieces] = 1;
  return pmf;
}
