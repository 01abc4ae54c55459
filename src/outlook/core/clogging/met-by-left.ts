import { normalCdf } from '../normal.js';

/** Ranges narrower than this would make a step of it. */
const LEAST_LN_SD = 1e-3;
const Z_80 = 1.2815515655446004;

/**
 * The probability that a limit is met by a further load, from the range of what is left: lognormal on each side of the middle, so that the ends and the middle are met exactly. 0 before anything more has run.
 *
 * Source: two-piece lognormal through three quantiles (common practice).
 *
 * @example metByLeft({ p10: 50, p50: 100, p90: 400 })(400) // => 0.9
 * @example metByLeft({ p10: 50, p50: 100, p90: 400 })(0) // => 0
 */
export function metByLeft({ p10, p50, p90 }: { readonly p10: number; readonly p50: number; readonly p90: number }): (further: number) => number {
  const below = Math.max(LEAST_LN_SD, Math.log(p50 / p10) / Z_80);
  const above = Math.max(LEAST_LN_SD, Math.log(p90 / p50) / Z_80);
  return (further) => {
    if (!(further > 0)) return 0;
    const ln = Math.log(further / p50);
    return normalCdf(ln / (ln < 0 ? below : above));
  };
}
