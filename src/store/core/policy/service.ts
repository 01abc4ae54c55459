import { atMost, meanOf, quantileOf, shortfall } from '../demand/pmf/pmf.js';
import { ShortfallSteps } from './shortfall-steps.js';

/** What a stock is good for until the next order can have come. */
export interface ServiceOfStock {
  /** Probability that nothing is missing */
  readonly enough: number;
  /** Pieces missing, on average */
  readonly missing: number;
}

/**
 * What what lies there and is on order, less what is reserved, is good for; and with one more, and one less.
 *
 * @example serviceOf([0.5, 0.3, 0.2], 1) // => { "now": { "enough": 0.8, "missing": 0.2 }, "oneMore": { "enough": 1, "missing": 0 }, "oneLess": { "enough": 0.5, "missing": 0.7 } }
 */
export function serviceOf(need: ArrayLike<number>, position: number): Readonly<Record<'now' | 'oneMore' | 'oneLess', ServiceOfStock>> {
  const at = (stock: number) => ({ enough: stock < 0 ? 0 : atMost(need, stock), missing: shortfall(need, stock) });
  return { now: at(position), oneMore: at(position + 1), oneLess: at(position - 1) };
}

/**
 * Level of a place: enough for the need with the asked probability, and never below what must always be there (a van's minimum).
 *
 * @example levelFor([0.5, 0.3, 0.2], 0.8, 2) // => 2
 */
export const levelFor = (need: ArrayLike<number>, probability: number, atLeast = 0): number => Math.max(atLeast, quantileOf(need, probability));

/**
 * Share of jobs that find all parts, from the shares of the parts: their product where they do not depend on each other.
 *
 * @example jobFillOf([0.98, 0.95, 0.99]) // => 0.92169
 */
export const jobFillOf = (shares: readonly number[]): number => shares.reduce((product, share) => product * share, 1);

/**
 * Share of need served at once under periodic review with what is needed in a lead time and in lead time and review, without counting what is owed twice:
 *   1 - [E(D(L+R) - S)+ - E(D(L) - S)+] / E D(R).
 *
 * Source: Sobel 2004, from memory; check values Boylan and Syntetos, Intermittent Demand Forecasting, chapter 3.
 */
export function fillOfPeriodic(overLead: ArrayLike<number>, overBoth: ArrayLike<number>, level: number, needOfReview: number): number | null {
  return needOfReview <= 0 ? null : 1 - (shortfall(overBoth, level) - shortfall(overLead, level)) / needOfReview;
}

/**
 * The least level whose fill by review is as asked. Where the review itself brings no need (plans lie elsewhere), the least that is enough with that probability.
 *
 * @example levelForFill([1], [0.5, 0.5], 0.9) // => 1
 */
export function levelForFill(overLead: ArrayLike<number>, overBoth: ArrayLike<number>, fill: number): number {
  const needOfReview = meanOf(overBoth) - meanOf(overLead);
  if (needOfReview < HARDLY) return quantileOf(overBoth, fill);
  const [lead, both] = [new ShortfallSteps(overLead, 0), new ShortfallSteps(overBoth, 0)];
  let level = 0;
  while (level < overBoth.length && 1 - (both.short - lead.short) / needOfReview < fill - 1e-9) {
    level += 1;
    lead.up();
    both.up();
  }
  return level;
}

/** Less need than this in a review is rounding. */
const HARDLY = 1e-6;
