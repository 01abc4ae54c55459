import type { Pmf } from '../types.js';
import { LONGEST, trimmed } from './pmf.js';

/**
 * Distribution of the sum of two needs that do not depend on each other.
 *
 * @example [...convolve([0.5, 0.5], [0.5, 0.5])] // => [0.25, 0.5, 0.25]
 */
export function convolve(a: ArrayLike<number>, b: ArrayLike<number>): Pmf {
  const length = Math.min(a.length + b.length - 1, LONGEST);
  const sum = new Float64Array(length);
  for (let i = 0; i < a.length; i++) {
    const share = a[i] as number;
    if (share === 0) continue;
    const end = Math.min(b.length, length - i);
    for (let j = 0; j < end; j++) sum[i + j] = (sum[i + j] as number) + share * (b[j] as number);
    for (let j = end; j < b.length; j++) sum[length - 1] = (sum[length - 1] as number) + share * (b[j] as number);
  }
  return trimmed(sum);
}

/**
 * Distribution of the sum of n needs alike, by squaring.
 *
 * @example [...convolvedTimes([0.5, 0.5], 3)] // => [0.125, 0.375, 0.375, 0.125]
 */
export function convolvedTimes(pmf: Pmf | readonly number[], times: number): Pmf {
  let sum: Pmf = Float64Array.of(1);
  let square: Pmf = Float64Array.from(pmf);
  for (let left = times; left > 0; left = Math.floor(left / 2)) {
    if (left % 2 === 1) sum = convolve(sum, square);
    if (left > 1) square = convolve(square, square);
  }
  return sum;
}

/**
 * Weighted mean of distributions: which of them holds is not known. The weights need not sum to 1; those of 0 are left out.
 *
 * @example [...mixed([[1], [0, 1]], [1, 3])] // => [0.25, 0.75]
 */
export function mixed(pmfs: readonly ArrayLike<number>[], weights: readonly number[]): Pmf {
  let length = 1;
  let total = 0;
  for (const [at, pmf] of pmfs.entries()) {
    if ((weights[at] ?? 0) <= 0) continue;
    length = Math.max(length, pmf.length);
    total += weights[at] ?? 0;
  }
  const mix = new Float64Array(length);
  for (const [at, pmf] of pmfs.entries()) {
    const weight = (weights[at] ?? 0) / total;
    if (!(weight > 0)) continue;
    for (let k = 0; k < pmf.length; k++) mix[k] = (mix[k] as number) + weight * (pmf[k] as number);
  }
  return trimmed(mix);
}

/**
 * A need of whole packs or sets: so many pieces at a time.
 *
 * @example [...inSteps([0.5, 0.5], 3)] // => [0.5, 0, 0, 0.5]
 */
export function inSteps(pmf: ArrayLike<number>, pieces: number): Pmf {
  const steps = new Float64Array((pmf.length - 1) * pieces + 1);
  for (let k = 0; k < pmf.length; k++) steps[k * pieces] = (steps[k * pieces] as number) + (pmf[k] as number);
  return steps;
}

/**
 * Sum of a random number of sizes: demand that comes in orders of more than one. `count` says how many orders, `size` how many pieces each.
 *
 * @example [...compound([0.5, 0.3, 0.2], [0, 0.5, 0.5])] // => [0.5, 0.15, 0.2, 0.1, 0.05]
 */
export function compound(count: ArrayLike<number>, size: ArrayLike<number>): Pmf {
  const last = count.length - 1;
  // Horner's scheme: one convolution an order, none kept.
  let sum: Pmf = Float64Array.of(count[last] ?? 0);
  for (let n = last - 1; n >= 0; n--) {
    sum = convolve(sum, size);
    sum[0] = (sum[0] as number) + (count[n] ?? 0);
  }
  return trimmed(sum);
}
