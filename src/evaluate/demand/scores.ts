import { quantileOf } from '../../store/core/demand/pmf/pmf.js';
import type { Pmf } from '../../store/core/demand/types.js';

/** Continuous ranked probability score of a count: the sum over k of (F(k) - [k >= y])^2. */
export function crps(pmf: Pmf, y: number): number {
  let sum = 0;
  let upTo = 0;
  const end = Math.max(pmf.length - 1, y);
  for (let k = 0; k <= end; k++) {
    upTo = k >= pmf.length - 1 ? 1 : upTo + (pmf[k] ?? 0);
    sum += (upTo - (k >= y ? 1 : 0)) ** 2;
  }
  return sum;
}

/** Loss of a quantile: what is short costs tau, what is too much 1 - tau. */
const pinball = (quantile: number, y: number, tau: number): number => (y >= quantile ? tau * (y - quantile) : (1 - tau) * (quantile - y));

/** The loss of a distribution's quantile, with the floor below which nobody would keep stock. */
export const pinballOf = (pmf: Pmf, y: number, tau: number, floor: number): number => pinball(Math.max(floor, quantileOf(pmf, tau)), y, tau);
