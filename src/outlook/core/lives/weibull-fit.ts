/** How long one part served, and whether it failed or was still good when it was last seen. */
export interface SeenLife {
  readonly life: number;
  readonly failed: boolean;
}

/** Weibull law of lives: share that outlives t = exp(-(t / scale) ^ shape). */
export interface WeibullFit {
  readonly kind: 'fit';
  readonly scale: number;
  readonly shape: number;
  readonly lnLikelihood: number;
  readonly failures: number;
}

const SHAPE_RANGE = [0.05, 50] as const;
const EXACT_TO = 1e-12;

/**
 * Weibull law of lives of which some were cut off (suspended): the most likely scale and shape.
 *
 * The shape b solves sum(t^b ln t) / sum(t^b) - 1/b - mean(ln t of failures) = 0, sums over all lives, found by halving; scale = (sum(t^b) / failures) ^ (1/b). Lives of 0 or less say nothing. `too-little-data`
 * below two failures, or where all failures are the same age.
 *
 * Source: maximum likelihood with censored lives, standard form, from memory; the specs check it against NIST/SEMATECH e-Handbook 8.4.1.3 and other published fits.
 *
 * @example weibullFit([{ life: 10, failed: true }]) // => { "kind": "too-little-data", "have": 1, "need": 2 }
 */
export function weibullFit(lives: readonly SeenLife[]): WeibullFit | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number } {
  const seen = lives.filter(({ life }) => life > 0 && Number.isFinite(life));
  const failed = seen.filter((one) => one.failed);
  const longest = seen.reduce((most, { life }) => Math.max(most, life), 0);
  if (failed.length < 2 || failed.every(({ life }) => life === failed[0]?.life)) return { kind: 'too-little-data', have: Math.min(1, failed.length), need: 2 };
  // Lives as shares of the longest, so that no power overflows.
  const ln = seen.map(({ life }) => Math.log(life / longest));
  const meanLnFailed = failed.reduce((sum, { life }) => sum + Math.log(life / longest), 0) / failed.length;
  const slope = (shape: number) => {
    let [powers, weighted] = [0, 0];
    for (const one of ln) {
      const power = Math.exp(shape * one);
      powers += power;
      weighted += power * one;
    }
    return weighted / powers - 1 / shape - meanLnFailed;
  };
  let [low, high] = [SHAPE_RANGE[0] as number, SHAPE_RANGE[1] as number];
  while (high - low > EXACT_TO * high) {
    const middle = (low + high) / 2;
    if (middle === low || middle === high) break;
    if (slope(middle) < 0) low = middle;
    else high = middle;
  }
  const shape = (low + high) / 2;
  const powers = ln.reduce((sum, one) => sum + Math.exp(shape * one), 0);
  const scale = longest * (powers / failed.length) ** (1 / shape);
  return { kind: 'fit', scale, shape, failures: failed.length, lnLikelihood: lnLikelihoodOf(seen, scale, shape) };
}

/**
 * Logarithm of the likelihood of lives under a Weibull law: density for failures, share that outlives for the rest.
 *
 * @example lnLikelihoodOf([{ life: 10, failed: false }], 10, 2) // => -1
 */
export function lnLikelihoodOf(lives: readonly SeenLife[], scale: number, shape: number): number {
  return lives.reduce((sum, { life, failed }) => {
    const lnRatio = Math.log(life / scale);
    return sum - Math.exp(shape * lnRatio) + (failed ? Math.log(shape / scale) + (shape - 1) * lnRatio : 0);
  }, 0);
}
