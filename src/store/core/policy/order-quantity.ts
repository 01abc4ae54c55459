/** K per order, h per piece and period held, need per period. */
export interface LotCosts {
  readonly perOrder: number;
  readonly perPieceHeld: number;
  readonly need: number;
}

/**
 * Economic order quantity sqrt(2 K d / h) and its cost a period sqrt(2 K d h).
 *
 * Source: Harris 1913, from memory; check values Snyder and Shen, Fundamentals of Supply Chain Theory, example 3.1.
 *
 * @example economicQuantity({ perOrder: 8, perPieceHeld: 0.225, need: 1300 }) // => { "quantity": 304.0467800264, "cost": 68.4105255059 }
 */
export function economicQuantity({ perOrder, perPieceHeld, need }: LotCosts): { readonly quantity: number; readonly cost: number } {
  return { quantity: Math.sqrt((2 * perOrder * need) / perPieceHeld), cost: Math.sqrt(2 * perOrder * need * perPieceHeld) };
}

/**
 * The same where what is missing may be owed at p per piece and period: Q sqrt((h + p)/p), cost times sqrt(p/(h + p)), owed for h/(h + p) of the time.
 *
 * Source: Snyder and Shen, example 3.8.
 *
 * @example economicQuantityOwed({ perOrder: 8, perPieceHeld: 0.225, need: 1300 }, 5) // => { "quantity": 310.8125552, "cost": 66.9213636, "owedShare": 0.0430622 }
 */
export function economicQuantityOwed(costs: LotCosts, perPieceOwed: number): { readonly quantity: number; readonly cost: number; readonly owedShare: number } {
  const { quantity, cost } = economicQuantity(costs);
  const both = costs.perPieceHeld + perPieceOwed;
  return { quantity: quantity * Math.sqrt(both / perPieceOwed), cost: cost * Math.sqrt(perPieceOwed / both), owedShare: costs.perPieceHeld / both };
}

/** What a supplier sells in, and what may lie there before it expires. */
export interface BuyingLimits {
  readonly pack: number;
  readonly atLeast: number;
  /** Most that is used up before it expires, with what lies there and is on order already taken off; null where it keeps */
  readonly beforeExpiry: number | null;
}

export type BoughtQuantity =
  | { readonly kind: 'quantity'; readonly pieces: number }
  | { readonly kind: 'would expire'; readonly pieces: number; readonly used: number };

/**
 * Rounds a need up to the minimum order and to whole packs, and says where part of that would expire before it is used.
 *
 * @example boughtQuantity(7, { pack: 5, atLeast: 0, beforeExpiry: null }) // => { "kind": "quantity", "pieces": 10 }
 * @example boughtQuantity(7, { pack: 20, atLeast: 0, beforeExpiry: 12 }) // => { "kind": "would expire", "pieces": 20, "used": 12 }
 * @example boughtQuantity(0, { pack: 5, atLeast: 10, beforeExpiry: null }) // => { "kind": "quantity", "pieces": 0 }
 */
export function boughtQuantity(wanted: number, { pack, atLeast, beforeExpiry }: BuyingLimits): BoughtQuantity {
  if (wanted <= 0) return { kind: 'quantity', pieces: 0 };
  const pieces = Math.ceil(Math.max(wanted, atLeast) / pack - 1e-9) * pack;
  return beforeExpiry !== null && pieces > beforeExpiry ? { kind: 'would expire', pieces, used: Math.max(0, beforeExpiry) } : { kind: 'quantity', pieces };
}
