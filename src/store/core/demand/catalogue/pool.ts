import { mixed } from '../pmf/convolve.js';
import { negativeBinomial } from '../pmf/negative-binomial.js';
import type { Pmf } from '../types.js';
import type { CatalogueConstants } from './constants.js';
import { featuresOf } from './features.js';
import { gammaPoisson } from './gamma-poisson.js';
import { hurdle } from './hurdle.js';
import type { ItemState } from './item-state.js';
import { type Regression, regressed } from './regression.js';

/** What the regression counts for; the other two share the rest. */
const OF_REGRESSION = 0.5;
/** Younger items than this tell the regression nothing. */
const YOUNGEST_MONTHS = 13;

/**
 * The three views of the need of the next months in one: half the regression, a quarter each of the two that draw to the catalogue. The regression has the best
 * centre, the hurdle the best tail, and neither wins everywhere. Without a regression, or for an item too young for one, the other two alone.
 */
export function pooled(state: ItemState, months: number, fit: { readonly constants: CatalogueConstants; readonly regressions: readonly Regression[] }): Pmf {
  const drifting = gammaPoisson(state, months, fit.constants);
  const hurdled = hurdle(state, months, fit.constants);
  const law = state.months < YOUNGEST_MONTHS ? null : regressionAt(state, months, fit.constants, fit.regressions);
  if (law === null) return mixed([drifting, hurdled], [1, 1]);
  const rest = (1 - OF_REGRESSION) / 2;
  return mixed([negativeBinomial(law.mean, law.mean * (1 + law.excess)), drifting, hurdled], [OF_REGRESSION, rest, rest]);
}

/** Between two horizons that were fitted the rate and the spread go over evenly; beyond them the rate stays and the spread grows with the months. */
function regressionAt(state: ItemState, months: number, constants: CatalogueConstants, regressions: readonly Regression[]) {
  const after = regressions.findIndex((one) => one.months >= months);
  const high = regressions[after === -1 ? regressions.length - 1 : after];
  if (high === undefined) return null;
  const features = featuresOf(state, constants);
  const upper = regressed(high, features);
  const low = after > 0 && high.months > months ? regressions[after - 1] : undefined;
  if (low === undefined) {
    const times = months / high.months;
    return { mean: upper.mean * times, excess: upper.excess * times };
  }
  const lower = regressed(low, features);
  const share = (months - low.months) / (high.months - low.months);
  return {
    mean: months * ((1 - share) * (lower.mean / low.months) + share * (upper.mean / high.months)),
    excess: (1 - share) * lower.excess + share * upper.excess,
  };
}
