import { quantile } from 'd3-array';
import { atMost } from '../pmf/pmf.js';
import type { MonthlyUse } from '../types.js';
import { type CatalogueConstants, constantsOf } from './constants.js';
import { featuresOf } from './features.js';
import { type ItemState, statesFrom } from './item-state.js';
import { pooled } from './pool.js';
import { type PastForecast, type Recalibration, reachedOf } from './recalibration.js';
import { fitRegression, type Regression } from './regression.js';

/** All that items learn from each other. Plain numbers: it can be kept, and made again when the catalogue has changed. */
export interface CatalogueFit {
  readonly constants: CatalogueConstants;
  /** By horizon, rising; empty where there are too few items or months */
  readonly regressions: readonly Regression[];
  readonly recalibrations: readonly Recalibration[];
}

const HORIZONS_MONTHS: readonly number[] = [1, 2, 3, 4, 6];

const FEWEST_ITEMS = 50;
/** The first month that a row is made at; months back that rows are made from, and their half-life. */
const FIRST_MONTH = 13;
const ORIGINS = 15;
const HALF_LIFE_OF_ROWS = 12;
const MOST_ROWS = 30_000;
/** Months back whose forecasts are held against what came. */
const ORIGINS_HELD_AGAINST = 10;
const RATE_CUTS = [0.4, 0.7, 0.9];
const SIZE_CUT = 1.8;

/**
 * Fits what the items of a store have in common: constants, one regression per horizon and, from forecasts as they would have been made in the last months,
 * how far the shares that were reached lay from those that were forecast. Histories end with the same month; items may be of different ages. Below 50 items
 * there is no regression.
 */
export function fitCatalogue(histories: readonly MonthlyUse[], horizons: readonly number[] = HORIZONS_MONTHS): CatalogueFit {
  const longest = histories.reduce((most, { length }) => Math.max(most, length), 0);
  const past = new PastOfCatalogue(histories, longest);
  const constants = past.constants(0);
  const regressions = histories.length < FEWEST_ITEMS ? [] : horizons.flatMap((months) => fitHorizon(past, months, longest));
  const bare = { constants, regressions, recalibrations: [] };
  return {
    constants,
    regressions,
    recalibrations: histories.length < FEWEST_ITEMS ? [] : horizons.flatMap((months) => recalibrate(past, bare, months, longest)),
  };
}

/** The items as they were some months ago, with what they then went on to need. */
class PastOfCatalogue {
  private readonly states: readonly ItemState[][];
  private readonly known = new Map<number, CatalogueConstants>();

  constructor(
    readonly histories: readonly MonthlyUse[],
    longest: number,
  ) {
    const deepest = ORIGINS + Math.max(...HORIZONS_MONTHS);
    this.states = histories.map((use) => statesFrom(use, Math.max(0, use.length - Math.min(deepest, longest))));
  }

  state = (item: number, back: number): ItemState | undefined => this.states[item]?.at(-1 - back);

  constants(back: number): CatalogueConstants {
    const known = this.known.get(back) ?? constantsOf(this.states.flatMap((ofItem) => ofItem.at(-1 - back) ?? []));
    this.known.set(back, known);
    return known;
  }

  /** What an item went on to need in the `months` months after `back` months ago. */
  needed(item: number, back: number, months: number): number {
    const use = this.histories[item] as MonthlyUse;
    let sum = 0;
    for (let t = use.length - back; t < use.length - back + months; t++) sum += use[t] ?? 0;
    return sum;
  }
}

function fitHorizon(past: PastOfCatalogue, months: number, longest: number): Regression[] {
  const features: Float64Array[] = [];
  const needed: number[] = [];
  const weights: number[] = [];
  const every = Math.max(1, Math.ceil((past.histories.length * ORIGINS) / MOST_ROWS));
  let row = 0;
  for (let back = months; back < months + ORIGINS && longest - back >= FIRST_MONTH; back++) {
    const constants = past.constants(back);
    for (let item = 0; item < past.histories.length; item++) {
      const state = past.state(item, back);
      if (state === undefined || state.months < FIRST_MONTH || row++ % every !== 0) continue;
      features.push(featuresOf(state, constants));
      needed.push(past.needed(item, back, months));
      weights.push(0.5 ** ((back - months) / HALF_LIFE_OF_ROWS));
    }
  }
  return features.length < FEWEST_ITEMS ? [] : [fitRegression(months, { features, needed, weights })];
}

function recalibrate(past: PastOfCatalogue, fit: CatalogueFit, months: number, longest: number): Recalibration[] {
  const items = past.histories.map((_, item) => item);
  const recent = items.flatMap((item) => past.state(item, 0) ?? []).map(recentRate);
  const rates = RATE_CUTS.map((share) => quantile(recent, share) ?? 0);
  const forecasts: PastForecast[] = [];
  for (let back = months; back < months + ORIGINS_HELD_AGAINST && longest - back >= FIRST_MONTH; back++) {
    const then = { ...fit, constants: past.constants(back) };
    for (const item of items) {
      const state = past.state(item, back);
      if (state === undefined || state.months < FIRST_MONTH) continue;
      const pmf = pooled(state, months, then);
      const y = past.needed(item, back, months);
      forecasts.push({ group: groupOf(state, rates, SIZE_CUT), below: y === 0 ? 0 : atMost(pmf, y - 1), upTo: atMost(pmf, y) });
    }
  }
  if (forecasts.length < FEWEST_ITEMS) return [];
  return [{ months, rates, size: SIZE_CUT, reached: reachedOf(forecasts, 2 * (RATE_CUTS.length + 1)) }];
}

const recentRate = (state: ItemState) => (state.months === 0 ? 0 : state.pieces(8) / state.weight(8));

/** Which group an item belongs to: by its recent rate, and by whether it is needed one at a time. */
export function groupOf(state: ItemState, rates: readonly number[], size: number): number {
  const rate = recentRate(state);
  const bulky = state.busy(30) > 0 && state.pieces(30) / state.busy(30) > size;
  return rates.filter((cut) => rate > cut).length * 2 + (bulky ? 1 : 0);
}
