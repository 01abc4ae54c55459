/** What lies between a dip and the one before it. */
export interface BookInterval {
  readonly from: Date;
  readonly to: Date;
  /** From level readings, deliveries and what was passed on to other tanks */
  readonly observedL: number;
  /** What the set points of everyone who draws ask for */
  readonly expectedL: number;
}

/** How well a dosing pump keeps its set point, and how well the strength is known, as shares of what was expected. Common practice. */
export const PUMP_ERROR_SHARE = 0.05;
export const STRENGTH_ERROR_SHARE = 0.03;

/**
 * Variance that the true use of an interval may have about what is expected, L^2: (0.05 expected)^2 + (0.03 expected)^2.
 *
 * Source: error budget, common practice.
 *
 * @example useVariance(100) // => 34
 */
export function useVariance(expectedL: number): number {
  return (PUMP_ERROR_SHARE ** 2 + STRENGTH_ERROR_SHARE ** 2) * expectedL ** 2;
}
