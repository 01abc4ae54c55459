import { normalCdf } from '../../../../outlook/core/normal.js';

const FARTHEST = 8;

/**
 * The z below which a standard normal value lies with this probability, by Newton's method from a logistic start; cut at -8 and 8.
 *
 * @example inverseNormal(0.975) // => 1.9599640
 * @example inverseNormal(0) // => -8
 */
export function inverseNormal(probability: number): number {
  if (probability <= 1e-15) return -FARTHEST;
  if (probability >= 1 - 1e-15) return FARTHEST;
  if (probability > 0.5) return -inverseNormal(1 - probability);
  // In the tail the logarithm is nearly quadratic: Newton on ln p converges from anywhere below the median.
  let z = -Math.sqrt(Math.max(0, -2 * Math.log(2 * probability)));
  for (let round = 0; round < 30; round++) {
    const p = normalCdf(z);
    const step = (p * (Math.log(p) - Math.log(probability))) / (Math.exp((-z * z) / 2) / Math.sqrt(2 * Math.PI));
    z -= step;
    if (Math.abs(step) < 1e-12) break;
  }
  return Math.max(-FARTHEST, z);
}
