const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
/** Beyond this the series below would lose digits to cancellation, and the continued fraction is quick. */
const SERIES_ENDS_AT = 4;

const density = (z: number) => Math.exp((-z * z) / 2) / ROOT_TWO_PI;

/** Ratio of upper tail to density (Mills' ratio) by its continued fraction, for z of 4 and more. */
function tailOverDensity(z: number): number {
  let denominator = z;
  for (let k = 60; k >= 1; k--) denominator = z + k / denominator;
  return 1 / denominator;
}

/**
 * Standard normal distribution function: the probability that a standard normal value is z or less. Accurate to about 1e-15 relative to 1 and, in the
 * lower tail, relative to itself.
 *
 * Source: Marsaglia, Evaluating the Normal Distribution, Journal of Statistical Software 11 (2004) 4, for the series; Mills' ratio as a continued fraction
 * (Laplace) for the tails. Both from memory.
 *
 * @example normalCdf(0) // => 0.5
 * @example normalCdf(1.959963984540054) // => 0.975
 */
export function normalCdf(z: number): number {
  if (z < -SERIES_ENDS_AT) return density(z) * tailOverDensity(-z);
  if (z > SERIES_ENDS_AT) return 1 - density(z) * tailOverDensity(z);
  let term = z;
  let sum = 0;
  for (let k = 1; sum + term !== sum; k += 2) {
    sum += term;
    term *= (z * z) / (k + 2);
  }
  return 0.5 + sum * density(z);
}

/**
 * Natural logarithm of the standard normal distribution function; stays finite where the probability itself is too small for a number.
 *
 * Source: as `normalCdf`.
 *
 * @example logNormalCdf(0) // => -0.6931472
 * @example logNormalCdf(-40) // => -804.6084420
 */
export function logNormalCdf(z: number): number {
  return z < -SERIES_ENDS_AT ? (-z * z) / 2 - Math.log(ROOT_TWO_PI) + Math.log(tailOverDensity(-z)) : Math.log(normalCdf(z));
}

/**
 * Mean of a standard normal value that is known to lie above z: density over upper tail. Serves lives that were cut off before their end.
 *
 * @example meanAbove(0) // => 0.7978846
 */
export function meanAbove(z: number): number {
  return z > SERIES_ENDS_AT ? 1 / tailOverDensity(z) : density(z) / normalCdf(-z);
}

/**
 * Standard normal quantile: the value with a given share below it. Starts from a rational fit and is polished with the distribution function; shares outside 0 to 1 count as their ends.
 *
 * Source: rational fit by P. J. Acklam (2003, from memory), one step of Halley's method.
 *
 * @example normalQuantile(0.975) // => 1.959963985
 */
export function normalQuantile(share: number): number {
  const p = Math.min(1 - 1e-15, Math.max(1e-300, share));
  const start = p < 0.02425 ? tailStart(Math.sqrt(-2 * Math.log(p))) : p > 1 - 0.02425 ? -tailStart(Math.sqrt(-2 * Math.log(1 - p))) : middleStart(p - 0.5);
  const error = (normalCdf(start) - p) / density(start);
  return start - error / (1 + (start * error) / 2);
}

const ratio = (x: number, top: readonly number[], bottom: readonly number[]) =>
  top.reduce((sum, c) => sum * x + c, 0) / bottom.reduce((sum, c) => sum * x + c, 0);

const tailStart = (q: number) =>
  ratio(
    q,
    [-7.784894002430293e-3, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968, 2.938163982698783],
    [7.784695709041462e-3, 0.3224671290700398, 2.445134137142996, 3.754408661907416, 1],
  );

const middleStart = (q: number) =>
  q *
  ratio(
    q * q,
    [-39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239],
    [-54.47609879822406, 161.5858368580409, -155.6989798598868, 66.80131188771972, -13.28068155288572, 1],
  );
