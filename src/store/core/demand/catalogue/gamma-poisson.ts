import { negativeBinomial } from '../pmf/negative-binomial.js';
import type { Pmf } from '../types.js';
import type { CatalogueConstants } from './constants.js';
import type { ItemState } from './item-state.js';

/** Months of the catalogue that stand against an item's own: of its rate, of its variance ratio. */
const MONTHS_OF_RATE = 8;
const MONTHS_OF_RATIO = 20;

/**
 * Need of so many months by a rate that drifts and is drawn to the catalogue's (gamma-Poisson with discounting):
 *   rate = (sum w y + 8 r0) / (W + 8),   mean = h rate,   variance = mean phi (1 + h / (W + 8)),
 * with w halving every 5 months, phi the item's variance ratio drawn to the pooled one with the weight of 20 average months.
 *
 * Source: the discounting after Harvey and Fernandes, Journal of Business and Economic Statistics 7 (1989), from memory; drawing to the catalogue our own.
 */
export function gammaPoisson(state: ItemState, months: number, { rate: r0, ratio }: CatalogueConstants): Pmf {
  const weight = state.weight(5) + MONTHS_OF_RATE;
  const rate = (state.pieces(5) + MONTHS_OF_RATE * r0) / weight;
  const phi = Math.max(1, (state.scatter(40) + MONTHS_OF_RATIO * ratio * r0) / (state.pieces(40) + MONTHS_OF_RATIO * r0));
  const mean = months * rate;
  return negativeBinomial(mean, mean * phi * (1 + months / weight));
}
