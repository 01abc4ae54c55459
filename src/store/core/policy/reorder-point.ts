import { shortfall } from '../demand/pmf/pmf.js';
import { bestLevel, costOfLevel } from './holding-cost.js';
import { ShortfallSteps } from './shortfall-steps.js';

/** Order `quantity` whenever what is there and on order falls to `point`. */
export interface ReorderRule {
  readonly point: number;
  readonly quantity: number;
  readonly cost: number;
}

export interface StockCosts {
  readonly perOrder: number;
  readonly held: number;
  readonly short: number;
  /** Need per period */
  readonly need: number;
}

/**
 * Cheapest order point and quantity under continuous review:
 *   c(r, Q) = [K d + sum over y = r + 1..r + Q of G(y)] / Q,  G(y) = h E(y - D)+ + p E(D - y)+ with D the need of a lead time.
 * G falls and then rises, so the best Q levels are those around its least; Q grows as long as the next level costs less than the mean so far.
 *
 * Source: Federgruen and Zheng, Operations Research 40 (1992), from memory; check values Snyder and Shen, example 5.8 and problem 5.2.
 */
export function cheapestReorder(need: ArrayLike<number>, { perOrder, held, short, need: perPeriod }: StockCosts): ReorderRule {
  const costAt = (level: number) => costOfLevel(need, level, held, short);
  let low = bestLevel(need, held, short);
  let high = low;
  let sum = perOrder * perPeriod + costAt(low);
  for (;;) {
    const [below, above] = [costAt(low - 1), costAt(high + 1)];
    const next = Math.min(below, above);
    const quantity = high - low + 1;
    if (next >= sum / quantity) return { point: low - 1, quantity, cost: sum / quantity };
    sum += next;
    if (below < above) low -= 1;
    else high += 1;
  }
}

/** Cost of any order point and quantity. */
export function costOfReorder(need: ArrayLike<number>, point: number, quantity: number, { perOrder, held, short, need: perPeriod }: StockCosts): number {
  let sum = perOrder * perPeriod;
  for (let level = point + 1; level <= point + quantity; level++) sum += costOfLevel(need, level, held, short);
  return sum / quantity;
}

/**
 * Share of need that is served at once under (r, Q) when pieces are needed one at a time: levels r + 1..r + Q are met equally often, and one that is there
 * serves if fewer than it holds are needed in a lead time,
 *   1 - [sum over y of P(D >= y)] / Q.
 *
 * @example fillOfReorder([0.5, 0.3, 0.2], 0, 2) // => 0.65
 */
export function fillOfReorder(need: ArrayLike<number>, point: number, quantity: number): number {
  // E(D - r)+ - E(D - r - Q)+ is that sum.
  return Math.min(1, Math.max(0, 1 - (shortfall(need, point) - shortfall(need, point + quantity)) / quantity));
}

/** The least order point whose fill is as asked. */
export function reorderPointFor(need: ArrayLike<number>, quantity: number, fill: number): number {
  const [low, high] = [new ShortfallSteps(need, -quantity), new ShortfallSteps(need, 0)];
  let point = -quantity;
  while (point < need.length && 1 - (low.short - high.short) / quantity < fill - 1e-9) {
    point += 1;
    low.up();
    high.up();
  }
  return point;
}
