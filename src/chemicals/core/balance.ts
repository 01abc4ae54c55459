/** One interval between two dips of a tank. */
export interface DipInterval {
  readonly openingL: number;
  readonly closingL: number;
  readonly deliveredL: number;
  readonly expectedL: number;
  /** Standard error of one dip, L: what a centimetre or two of level hold */
  readonly dipErrorL: number;
}

export interface Balance {
  readonly observedL: number;
  readonly expectedL: number;
  /** Observed less expected: above 0 more went than the set points ask for */
  readonly residualL: number;
  /** `null` where nothing was expected */
  readonly ratio: number | null;
  /** Standard error of the residual */
  readonly errorL: number;
  readonly verdict: 'as expected' | 'more than expected' | 'less than expected' | 'dips do not fit';
}

/** How well a dosing pump keeps its set point, and how well the strength is known, as shares of what was expected. Common practice. */
const PUMP_ERROR_SHARE = 0.05;
const STRENGTH_ERROR_SHARE = 0.03;
const BEYOND = 2;

/**
 * Variance that the true use of an interval may have about what its set points ask for, L^2: (0.05 expected)^2 + (0.03 expected)^2.
 *
 * Source: error budget, common practice.
 *
 * @example useVariance(100) // => 34
 */
export function useVariance(expectedL: number): number {
  return (PUMP_ERROR_SHARE ** 2 + STRENGTH_ERROR_SHARE ** 2) * expectedL ** 2;
}

/**
 * Observed against expected use of a chemical between two dips: opening + deliveries - closing, and how far that may be off. Less than expected is no saving
 * but a dosing failure (a pump that lost its prime, an empty day tank); more is a leak or an overdose.
 *
 * Variance of the residual = 2 dip^2 + (0.05 expected)^2 + (0.03 expected)^2; beyond two standard errors it is told. Where the level rose by more than what was
 * delivered, beyond the error of the dips, a delivery is missing or a dip is wrong. Neighbouring intervals share a dip, so their residuals are
 * not independent: an error in it raises one and lowers the other.
 *
 * Source: error budget, common practice, shaped like published reconciliation rules (a share of throughput and a constant, 40 CFR 280.43(a)).
 *
 * @example balanceOf({ openingL: 300, closingL: 180, deliveredL: 0, expectedL: 118, dipErrorL: 3 }).residualL // => 2
 */
export function balanceOf({ openingL, closingL, deliveredL, expectedL, dipErrorL }: DipInterval): Balance {
  const observedL = openingL + deliveredL - closingL;
  const residualL = observedL - expectedL;
  const errorL = Math.sqrt(2 * dipErrorL ** 2 + useVariance(expectedL));
  const rose = observedL < -BEYOND * Math.SQRT2 * dipErrorL;
  const off = Math.abs(residualL) > BEYOND * errorL;
  return {
    observedL,
    expectedL,
    residualL,
    ratio: expectedL > 0 ? observedL / expectedL : null,
    errorL,
    verdict: rose ? 'dips do not fit' : !off ? 'as expected' : residualL > 0 ? 'more than expected' : 'less than expected',
  };
}
