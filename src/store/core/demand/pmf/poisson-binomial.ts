import type { Pmf } from '../types.js';

/**
 * How many of some parts are needed, when each is needed with a probability of its own and none depends on another. One pass a part, in place.
 *
 * @example [...poissonBinomial([0.5, 0.5])] // => [0.25, 0.5, 0.25]
 */
export function poissonBinomial(probabilities: ArrayLike<number>): Pmf {
  const pmf = new Float64Array(probabilities.length + 1);
  pmf[0] = 1;
  for (let i = 0; i < probabilities.length; i++) addPart(pmf, i, 1, probabilities[i] as number, 0);
  return pmf;
}

/**
 * Adds one part to a distribution, in place: it takes `pieces` with probability `once`, twice that with probability `twice`. `last` is the last entry
 * that is not 0, those after it are 0; the array must reach `last + 2 * pieces` where `twice` is above 0, else `last + pieces`. Gives the new last entry.
 */
export function addPart(pmf: Float64Array, last: number, pieces: number, once: number, twice: number): number {
  const none = 1 - once - twice;
  const end = last + (twice > 0 ? 2 * pieces : pieces);
  for (let k = end; k >= 0; k--) {
    let share = k <= last ? none * (pmf[k] as number) : 0;
    if (k >= pieces) share += once * (pmf[k - pieces] as number);
    if (twice > 0 && k >= 2 * pieces) share += twice * (pmf[k - 2 * pieces] as number);
    pmf[k] = share;
  }
  return end;
}
