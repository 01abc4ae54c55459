/** What of a stock moves: none in a year is dead where nothing is expected either, more than two years' need is slow. Common practice. */
export type StockPace =
  | { readonly kind: 'moving' }
  | { readonly kind: 'slow'; readonly yearsOfNeed: number; readonly tooMuch: number }
  | { readonly kind: 'dead'; readonly idleMonths: number };

const DEAD_MONTHS = 12;
const SLOW_YEARS = 2;
const HARDLY = 0.1;

/**
 * Tells dead and slow stock by how long nothing was needed and what is expected of the coming year. What a place must always have there is never too much.
 *
 * @example stockPaceOf({ onHand: 5, idleMonths: 30, expectedPerYear: 0, atLeast: 0 }) // => { "kind": "dead", "idleMonths": 30 }
 * @example stockPaceOf({ onHand: 9, idleMonths: 2, expectedPerYear: 2, atLeast: 0 }) // => { "kind": "slow", "yearsOfNeed": 4.5, "tooMuch": 5 }
 * @example stockPaceOf({ onHand: 2, idleMonths: 30, expectedPerYear: 0, atLeast: 2 }) // => { "kind": "moving" }
 */
export function stockPaceOf(stock: {
  readonly onHand: number;
  readonly idleMonths: number;
  readonly expectedPerYear: number;
  readonly atLeast: number;
}): StockPace {
  const { onHand, idleMonths, expectedPerYear, atLeast } = stock;
  if (onHand <= atLeast) return { kind: 'moving' };
  if (idleMonths >= DEAD_MONTHS && expectedPerYear < HARDLY) return { kind: 'dead', idleMonths };
  const years = onHand / Math.max(expectedPerYear, HARDLY);
  const tooMuch = Math.floor(onHand - Math.max(atLeast, SLOW_YEARS * expectedPerYear));
  return years > SLOW_YEARS && tooMuch > 0 ? { kind: 'slow', yearsOfNeed: years, tooMuch } : { kind: 'moving' };
}
