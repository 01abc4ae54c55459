import { COST_OF_ORDER, HELD_A_YEAR } from './usual-costs.js';

/** Nobody orders further ahead only because an order goes out anyway: what is needed then is not known well enough. Common practice. */
const MOST_DAYS = 60;
/** Where no price is known, so that nothing can be said of what keeping it costs. Common practice. */
const DAYS_WITHOUT_PRICE = 14;

export interface CanOrderAsked {
  /** Pieces that would be ordered */
  readonly quantity: number;
  /** Of one piece, in the reckoning currency; null: not known */
  readonly unitCost: number | null;
  /** What an order costs, whatever is on it; null: not known */
  readonly orderCost: number | null;
}

/**
 * Days by which it pays to bring an order forward when something else is ordered from the same supplier anyway: an order of its own is saved, and the pieces lie
 * there so much longer.
 *   days = cost of an order / (pieces x cost of a piece x share held a year / 365), 60 at most; 14 where no price is known.
 *
 * Source: the can-order policy (s, c, S) of joint replenishment, Balintfy 1964, from memory; that c follows from this comparison is our own choice.
 *
 * @example canOrderDays({ quantity: 10, unitCost: 100, orderCost: 20 }) // => 36.5
 * @example canOrderDays({ quantity: 1, unitCost: 5, orderCost: 20 }) // => 60
 * @example canOrderDays({ quantity: 10, unitCost: null, orderCost: 20 }) // => 14
 */
export function canOrderDays({ quantity, unitCost, orderCost }: CanOrderAsked): number {
  if (unitCost === null) return DAYS_WITHOUT_PRICE;
  const heldADay = (quantity * unitCost * HELD_A_YEAR) / 365;
  return heldADay <= 0 ? MOST_DAYS : Math.min(MOST_DAYS, (orderCost ?? COST_OF_ORDER) / heldADay);
}
