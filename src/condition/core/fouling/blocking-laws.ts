/** How fouling closes a membrane, by where it sits. */
export const BLOCKING_LAWS = ['complete', 'standard', 'intermediate', 'cake'] as const;
export type BlockingLaw = (typeof BLOCKING_LAWS)[number];

/** By law, n of dP/dV = k P^n. */
const EXPONENTS = { complete: 2, standard: 1.5, intermediate: 1, cake: 0 } as const;

/**
 * What grows in a straight line with the filtrate per area V at constant flux, by the law, where `ratio` is the pressure P at a reference temperature over that at V = 0: 1 - P0/P, 2 (1 - (P0/P)^0.5),
 * ln(P/P0), P/P0 - 1. Zero at a ratio of one, and of slope K in V, the constant of the law in the unit of 1/V.
 *
 * Source: Hermia 1982, Transactions of the Institution of Chemical Engineers 60, 183-187, in its form for constant flux (equations from memory).
 *
 * @example straightened('cake', 1.25) // => 0.25
 * @example straightened('complete', 1.25) // => 0.2
 */
export function straightened(law: BlockingLaw, ratio: number): number {
  const n = EXPONENTS[law];
  return n === 1 ? Math.log(ratio) : (ratio ** (1 - n) - 1) / (1 - n);
}

/**
 * P/P0 where the straightened pressure has grown to `grown` = K V; infinite where the law closes the membrane before.
 *
 * @example ratioAfter('cake', 0.25) // => 1.25
 */
export function ratioAfter(law: BlockingLaw, grown: number): number {
  const n = EXPONENTS[law];
  if (n === 1) return Math.exp(grown);
  const inner = 1 + (1 - n) * grown;
  return inner > 0 ? inner ** (1 / (1 - n)) : Number.POSITIVE_INFINITY;
}
