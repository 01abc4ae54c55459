import { normalQuantile } from './normal.js';

/**
 * Quantile of Student's t, for shares from 0.5 to 0.99 and one or more degrees of freedom (fewer count as one).
 *
 * Exact for one and two degrees; above, the expansion about the normal quantile in powers of 1 / freedom, within 0.5 % from three degrees on.
 *
 * Source: Fisher and Cornish expansion, as in Abramowitz and Stegun 26.7.5 (from memory); checked in the specs against published tables.
 *
 * @example quantileOfT(0.9, 1) // => 3.0776835
 */
export function quantileOfT(share: number, freedom: number): number {
  if (freedom < 3) {
    const [one, two] = [Math.tan(Math.PI * (share - 0.5)), (2 * share - 1) / Math.sqrt(2 * share * (1 - share))];
    if (freedom <= 1) return one;
    if (freedom <= 2) return one ** (2 - freedom) * two ** (freedom - 1);
    return two ** (3 - freedom) * expansion(share, 3) ** (freedom - 2);
  }
  return expansion(share, freedom);
}

function expansion(share: number, n: number): number {
  const z = normalQuantile(share);
  return (
    z +
    (z ** 3 + z) / (4 * n) +
    (5 * z ** 5 + 16 * z ** 3 + 3 * z) / (96 * n ** 2) +
    (3 * z ** 7 + 19 * z ** 5 + 17 * z ** 3 - 15 * z) / (384 * n ** 3) +
    (79 * z ** 9 + 776 * z ** 7 + 1482 * z ** 5 - 1920 * z ** 3 - 945 * z) / (92160 * n ** 4)
  );
}
