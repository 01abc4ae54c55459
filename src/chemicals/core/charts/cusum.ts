/** How a cumulative sum watches a series: all in the unit of its values. */
export interface CusumPlan {
  readonly target: number;
  /** Reference value, half the shift that is to be found */
  readonly k: number;
  /** Decision limit, usually four or five standard deviations */
  readonly h: number;
}

export interface CusumPoint {
  /** Sum of what lay above the target by more than k */
  readonly high: number;
  readonly low: number;
  readonly signal: 'high' | 'low' | null;
}

/**
 * Two-sided cumulative sum: S_high = max(0, S_high before + x - target - k), S_low = max(0, S_low before + target - k - x); a sum above h is a signal. Finds
 * small lasting shifts that no single value shows. Sums go on after a signal; who mends the cause begins a new series.
 *
 * k and h have the unit of the values: for values in standard deviations k 0.5 and h 4 find a shift of one deviation in about 8 values, and cry wolf in about 168
 * (tables of the original papers, as printed in the documentation of the R package spc).
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.3.
 *
 * @example cusum([57.1, 60], { target: 56, k: 0.75, h: 6 })[1].high // => 3.6
 */
export function cusum(values: readonly number[], { target, k, h }: CusumPlan): CusumPoint[] {
  let [high, low] = [0, 0];
  return values.map((value) => {
    high = Math.max(0, high + value - target - k);
    low = Math.max(0, low + target - k - value);
    return { high, low, signal: high > h && high >= low ? 'high' : low > h ? 'low' : null };
  });
}
