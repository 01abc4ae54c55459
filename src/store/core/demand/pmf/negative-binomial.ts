import type { Pmf } from '../types.js';
import { logGamma } from './log-gamma.js';
import { LONGEST, TAIL } from './pmf.js';

/** A variance this close to the mean is a Poisson distribution for all that can be told. */
const AS_POISSON = 1e-6;

/**
 * Negative binomial distribution of pieces by its mean m and variance v:
 *   r = m^2/(v - m),  p(0) = (m/v)^r,  p(y+1) = p(y) (y + r)/(y + 1) (1 - m/v).
 * With a variance of the mean or less it is the Poisson distribution; with a mean of 0 or less nothing is ever needed.
 *
 * @example [...negativeBinomial(3, 6).slice(0, 4)] // => [0.125, 0.1875, 0.1875, 0.15625]
 * @example [...negativeBinomial(0, 1)] // => [1]
 */
export function negativeBinomial(mean: number, variance: number): Pmf {
  if (!(mean > 0)) return Float64Array.of(1);
  const excess = variance / mean - 1;
  const r = excess > AS_POISSON ? mean / excess : Number.POSITIVE_INFINITY;
  const step = excess > AS_POISSON ? excess / (1 + excess) : 0;
  const logAtZero = excess > AS_POISSON ? -r * Math.log1p(excess) : -mean;
  const ratio = (y: number) => (step === 0 ? mean / (y + 1) : ((y + r) / (y + 1)) * step);
  return logAtZero > -600 ? upwards(Math.exp(logAtZero), ratio, variance) : aroundMode(mean, r, step, ratio);
}

/**
 * Poisson distribution with this mean.
 *
 * @example [...poisson(1).slice(0, 3)] // => [0.3678794, 0.3678794, 0.1839397]
 */
export const poisson = (mean: number): Pmf => negativeBinomial(mean, mean);

/** One buffer serves all: what it held is copied out before the next call. */
const buffer = new Float64Array(LONGEST);

function upwards(atZero: number, ratio: (y: number) => number, variance: number): Pmf {
  let last = 0;
  let sum = atZero;
  buffer[0] = atZero;
  const farthest = Math.min(LONGEST, Math.ceil(variance * 100 + 200));
  while (1 - sum > TAIL && last + 1 < farthest) {
    buffer[last + 1] = (buffer[last] as number) * ratio(last);
    last += 1;
    sum += buffer[last] as number;
  }
  const pmf = buffer.slice(0, last + 1);
  pmf[last] = (pmf[last] as number) + Math.max(0, 1 - sum);
  return pmf;
}

/** The probability of 0 is too small for a number: from the mode in both directions. */
function aroundMode(mean: number, r: number, step: number, ratio: (y: number) => number): Pmf {
  const mode = Math.min(LONGEST - 1, Math.floor(mean));
  const logAtMode =
    step === 0
      ? mode * Math.log(mean) - mean - logGamma(mode + 1)
      : logGamma(mode + r) - logGamma(r) - logGamma(mode + 1) + r * Math.log1p(-step) + mode * Math.log(step);
  const pmf = new Float64Array(LONGEST);
  pmf[mode] = Math.exp(logAtMode);
  for (let y = mode; y > 0 && (pmf[y] as number) > 1e-14; y--) pmf[y - 1] = (pmf[y] as number) / ratio(y - 1);
  let last = mode;
  for (; last + 1 < LONGEST && (pmf[last] as number) > 1e-12; last++) pmf[last + 1] = (pmf[last] as number) * ratio(last);
  const sum = pmf.reduce((total, share) => total + share, 0);
  pmf[last] = (pmf[last] as number) + Math.max(0, 1 - sum);
  return pmf.slice(0, last + 1);
}
