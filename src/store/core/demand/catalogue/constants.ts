import type { ItemState } from './item-state.js';

/** What the items of a store have in common; single items are drawn to it, the more so the less they have of their own. */
export interface CatalogueConstants {
  /** Pieces per item and month, lately and over the longer past */
  readonly rate: number;
  readonly slowRate: number;
  /** Variance of a month over its mean, pooled */
  readonly ratio: number;
  /** Share of months with need */
  readonly busy: number;
  /** Mean of pieces beyond the first, in months with need; and how that scatters: variance e + c e^2 */
  readonly excess: number;
  readonly scatter: number;
  /** Items that it was made from */
  readonly items: number;
}

/** What is assumed of spare parts before a store has any past, and how many items outweigh it. Judgement, near what car parts show. */
const ASSUMED = { rate: 0.3, slowRate: 0.3, ratio: 2, busy: 0.2, excess: 0.8, scatter: 1 };
const ITEMS_OF_PRIOR = 3;

/**
 * The constants of a catalogue from the states of its items: pooled sums over pooled weights. `assumed` items are mixed in with the weight of three items,
 * so that an empty store has constants as well.
 */
export function constantsOf(states: readonly ItemState[]): CatalogueConstants {
  const sum = (of: (state: ItemState) => number) => states.reduce((total, state) => total + of(state), 0);
  const months = (halfLife: 5 | 12 | 30 | 40, perMonth: number) => ITEMS_OF_PRIOR * fullWeight(halfLife) * perMonth;
  const rate = (sum((state) => state.pieces(5)) + months(5, ASSUMED.rate)) / (sum((state) => state.weight(5)) + months(5, 1));
  const slowRate = (sum((state) => state.pieces(12)) + months(12, ASSUMED.slowRate)) / (sum((state) => state.weight(12)) + months(12, 1));
  const busy = (sum((state) => state.busy(12)) + months(12, ASSUMED.busy)) / (sum((state) => state.weight(12)) + months(12, 1));
  const pieces = months(40, ASSUMED.rate);
  const ratio = (sum((state) => state.scatter(40)) + pieces * ASSUMED.ratio) / (sum((state) => state.pieces(40)) + pieces);
  const orders = months(30, ASSUMED.busy);
  const excess = (sum((state) => state.pieces(30) - state.busy(30)) + orders * ASSUMED.excess) / (sum((state) => state.busy(30)) + orders);
  let above = orders * ASSUMED.scatter * ASSUMED.excess ** 2;
  let below = orders * ASSUMED.excess ** 2;
  for (const state of states) {
    const count = state.busy(30);
    const own = excessOf(state, excess);
    // Sum of w (y - 1 - e)^2 over the months with need.
    const beyond = state.pieces(30) - count;
    const squares = state.squares(30) - 2 * state.pieces(30) + count;
    above += squares - 2 * own * beyond + own * own * count - own * count;
    below += own * own * count;
  }
  return { rate, slowRate, ratio, busy, excess, scatter: Math.max(0.02, above / below), items: states.length };
}

/** Months' worth of the catalogue in the size of one item's demands. */
const SIZES_OF_PRIOR = 3;

/** Mean pieces beyond the first in a month with need, drawn to the catalogue's. */
export function excessOf(state: ItemState, ofCatalogue: number): number {
  const count = state.busy(30);
  return (state.pieces(30) - count + SIZES_OF_PRIOR * ofCatalogue) / (count + SIZES_OF_PRIOR);
}

const fullWeight = (halfLife: number) => 1 / (1 - 0.5 ** (1 / halfLife));
