/**
 * Natural logarithm of the gamma function for x above 0, to about 1e-13 relative: Stirling's series from 10 on, recurrence below.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.1.41, from memory.
 *
 * @example logGamma(5) // => 3.1780538
 * @example logGamma(0.5) // => 0.5723649
 */
export function logGamma(x: number): number {
  let shift = 1;
  let z = x;
  while (z < 10) shift *= z++;
  const i = 1 / z;
  const i2 = i * i;
  const series = i * (1 / 12 - i2 * (1 / 360 - i2 * (1 / 1260 - i2 * (1 / 1680 - i2 * (1 / 1188)))));
  return (z - 0.5) * Math.log(z) - z + HALF_LOG_TWO_PI + series - (shift === 1 ? 0 : Math.log(shift));
}

const HALF_LOG_TWO_PI = 0.5 * Math.log(2 * Math.PI);

/**
 * Derivative of the logarithm of the gamma function for x above 0.
 *
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.3.18, from memory.
 *
 * @example digamma(1) // => -0.5772157
 */
export function digamma(x: number): number {
  let sum = 0;
  let z = x;
  while (z < 8) sum -= 1 / z++;
  const i2 = 1 / (z * z);
  return sum + Math.log(z) - 0.5 / z - i2 * (1 / 12 - i2 * (1 / 120 - i2 * (1 / 252 - i2 * (1 / 240 - i2 * (1 / 132)))));
}
