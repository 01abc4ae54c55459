/** How a moving average watches a series: `sd` in the unit of its values. */
export interface EwmaPlan {
  readonly target: number;
  readonly sd: number;
  /** Weight of the newest value: small for slow drift, large for sudden loss */
  readonly lambda: number;
  /** Width of the limits in standard deviations of the average */
  readonly width: number;
}

export interface EwmaPoint {
  readonly average: number;
  /** Half the distance between the limits, which widen to their final value with the first points */
  readonly limit: number;
  readonly signal: 'high' | 'low' | null;
}

/**
 * Exponentially weighted moving average with its limits: z = lambda x + (1 - lambda) z before, beginning at the target; limits target +- width sd
 * sqrt(lambda / (2 - lambda) (1 - (1 - lambda)^(2 i))). Finds slow drift.
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods 6.3.2.4.
 *
 * @example ewma([52], { target: 50, sd: 2.0539, lambda: 0.3, width: 3 })[0].average // => 50.6
 */
export function ewma(values: readonly number[], plan: EwmaPlan): EwmaPoint[] {
  const { target, lambda } = plan;
  let average = target;
  return values.map((value, at) => {
    average = lambda * value + (1 - lambda) * average;
    const limit = finalLimit(plan) * Math.sqrt(1 - (1 - lambda) ** (2 * (at + 1)));
    return { average, limit, signal: average > target + limit ? 'high' : average < target - limit ? 'low' : null };
  });
}

/**
 * Half the distance between the limits after many values: width sd sqrt(lambda / (2 - lambda)).
 *
 * @example finalLimit({ target: 0, sd: 1, lambda: 1, width: 3 }) // => 3
 */
export function finalLimit({ sd, lambda, width }: EwmaPlan): number {
  return width * sd * Math.sqrt(lambda / (2 - lambda));
}
