import { type Millionths, millionthsOf } from './quantity.js';

/** What somebody counted, and what the ledger says lay there at that moment, with all that was entered since. */
export interface Look {
  readonly counted: string;
  readonly book: string;
}

export type CountStanding =
  /** Nobody has looked yet */
  | { readonly kind: 'open' }
  | { readonly kind: 'agrees' }
  /** Another look is asked for */
  | { readonly kind: 'off' }
  /** Two looks say the same: so much is to be added (below zero: taken) */
  | { readonly kind: 'settled'; readonly difference: Millionths };

/**
 * What the looks at one line say, each against the ledger at its own moment, so that what was moved in between is reckoned with. A look that agrees with the ledger ends
 * the matter; one that is off asks for another; the difference counts when two looks, one after the other, find the same one.
 *
 * @example countStanding([]) // => { "kind": "open" }
 * @example countStanding([{ counted: '5', book: '5' }]) // => { "kind": "agrees" }
 * @example countStanding([{ counted: '4', book: '5' }]) // => { "kind": "off" }
 */
export function countStanding(looks: readonly Look[]): CountStanding {
  const differences = looks.map(({ counted, book }) => (millionthsOf(counted) ?? 0n) - (millionthsOf(book) ?? 0n));
  const last = differences.at(-1);
  if (last === undefined) return { kind: 'open' };
  if (last === 0n) return { kind: 'agrees' };
  return differences.at(-2) === last ? { kind: 'settled', difference: last } : { kind: 'off' };
}
