import type { CatalogueConstants } from './constants.js';
import type { ItemState } from './item-state.js';

/** How many columns `featuresOf` has; which of them the spread follows. */
export const FEATURES = 8;
export const SPREAD_FEATURES: readonly number[] = [0, 3, 6, 7];

const fullWeight = (halfLife: number) => 1 / (1 - 0.5 ** (1 / halfLife));
const FULL = { 3: fullWeight(3), 8: fullWeight(8), 24: fullWeight(24) };

/**
 * What of an item's past tells its future, as logarithms: need of about the last quarter, of the last year, of the last years (each with one average month of
 * the catalogue mixed in), how often, how long ago, how many at a time, how uneven. The first is 1.
 */
export function featuresOf(state: ItemState, { slowRate }: CatalogueConstants): Float64Array {
  const rate = (halfLife: 3 | 8 | 24) => Math.log(((state.pieces(halfLife) / state.weight(halfLife)) * FULL[halfLife] + slowRate) / (FULL[halfLife] + 1));
  const size = (state.pieces(30) + 3.6) / (state.busy(30) + 2);
  const unevenness = (state.scatter(40) + 20 * slowRate * 1.8) / (state.pieces(40) + 20 * slowRate);
  return Float64Array.of(
    1,
    rate(3),
    rate(8),
    rate(24),
    Math.log(((state.busy(8) / state.weight(8)) * FULL[8] + 0.25) / (FULL[8] + 1)),
    Math.log1p(state.idle),
    Math.log(size),
    Math.log(unevenness),
  );
}
