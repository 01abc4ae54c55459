import { meanOf } from '../demand/pmf/pmf.js';
import type { Pmf } from '../demand/types.js';
import { bestLevel } from '../policy/holding-cost.js';
import { economicQuantity } from '../policy/order-quantity.js';
import { cheapestReorder, reorderPointFor } from '../policy/reorder-point.js';
import { levelFor, levelForFill } from '../policy/service.js';
import { COST_OF_ORDER, HELD_A_YEAR } from '../policy/usual-costs.js';

export type AskedService =
  | { readonly kind: 'fill' | 'jobs'; readonly asked: number }
  /** What one missing piece costs a month */
  | { readonly kind: 'cost'; readonly shortCost: number };

export interface LevelsAsked {
  readonly service: AskedService;
  readonly reviewDays: number;
  readonly minimum: number;
  readonly maximum: number | null;
  /** In the reckoning currency; null: not known */
  readonly orderCost: number | null;
  readonly unitCost: number | null;
}

export interface StockLevels {
  /** Ordered when what is there and on order is no more than this; below 0: nothing is kept */
  readonly point: number;
  readonly upTo: number;
}

/** A thing that costs nothing is not heaped up for ever. */
const LEAST_HELD = 0.01;

/**
 * Order point and order-up-to level of an item at a place. Under review every so many days the level is enough until what is ordered at the next review has come;
 * under continuous review the point is enough until what is ordered then has come. One order brings the economic quantity, no more than a year's need.
 * `overLead` and `overBoth` are the need of the lead time, and of it with a review.
 */
export function stockLevels(overLead: Pmf, overBoth: Pmf, perYear: number, asked: LevelsAsked): StockLevels {
  const { service, reviewDays, minimum, maximum } = asked;
  const lot = lotOf(perYear, asked);
  const point = Math.max(Math.ceil(minimum) - 1, meanOf(overBoth) < 1e-6 ? -1 : pointOf(overLead, overBoth, perYear, lot, asked));
  const upTo = point + (service.kind === 'cost' && reviewDays === 0 ? Math.max(1, costed(overLead, perYear, asked).quantity) : lot);
  return maximum === null ? { point, upTo } : { point: Math.min(point, Math.floor(maximum) - 1), upTo: Math.min(upTo, Math.floor(maximum)) };
}

function pointOf(overLead: Pmf, overBoth: Pmf, perYear: number, lot: number, asked: LevelsAsked): number {
  const { service, reviewDays } = asked;
  if (service.kind === 'cost') {
    if (reviewDays === 0) return costed(overLead, perYear, asked).point;
    return bestLevel(overBoth, (heldAMonth(asked) * reviewDays) / 30.4375, service.shortCost) - 1;
  }
  if (reviewDays > 0) return (service.kind === 'fill' ? levelForFill(overLead, overBoth, service.asked) : levelFor(overBoth, service.asked)) - 1;
  if (service.kind === 'fill') return reorderPointFor(overLead, lot, service.asked);
  const level = levelFor(overLead, service.asked);
  return level === 0 ? -1 : level;
}

const heldAMonth = ({ unitCost }: LevelsAsked) => Math.max(LEAST_HELD, ((unitCost ?? 0) * HELD_A_YEAR) / 12);

function costed(overLead: Pmf, perYear: number, asked: LevelsAsked) {
  const short = asked.service.kind === 'cost' ? asked.service.shortCost : 0;
  return cheapestReorder(overLead, { perOrder: asked.orderCost ?? COST_OF_ORDER, held: heldAMonth(asked), short, need: perYear / 12 });
}

/** Without a price, a month's need. */
function lotOf(perYear: number, { orderCost, unitCost }: LevelsAsked): number {
  const best =
    unitCost === null || unitCost <= 0
      ? perYear / 12
      : economicQuantity({ perOrder: orderCost ?? COST_OF_ORDER, perPieceHeld: unitCost * HELD_A_YEAR, need: perYear }).quantity;
  return Math.max(1, Math.round(Math.min(best, perYear)));
}
