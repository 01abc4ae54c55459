import type { FirstPlan, RoutePlan, RoutingProblem } from './routing-problem.js';
import { Search, type SearchSettings } from './search.js';

interface ImproveSettings extends SearchSettings {
  /** From so many plans the search begins; with the best of them it goes on */
  readonly beginnings: number;
}

const USUAL_SEARCH: ImproveSettings = {
  beginnings: 4,
  mean: 10,
  longestString: 10,
  split: 0.5,
  wider: 0.8,
  wholeRoutes: 0,
  startTemperature: 0.6,
  endTemperature: 0.006,
  blinks: 0.03,
  nearest: 100,
  retries: 15,
};

/** For tours of few stops that each take long. */
export const SHORT_TOURS: ImproveSettings = {
  ...USUAL_SEARCH,
  beginnings: 1,
  wider: 0.01,
  wholeRoutes: 0.1,
  startTemperature: 6,
  endTemperature: 0.06,
  blinks: 0.01,
};

/** Of the search, what each beginning takes. */
const SHARE_OF_BEGINNING = 0.15;
/** How much cooler the search goes on with the best of them: what it has found is to be mended, not to be lost. */
const COOLER = 0.2;

/**
 * Improves a plan. From the first moment on there is a plan that keeps all windows. The same seed and the same `progress` give the same plan.
 *
 * Where a search begins decides much of where it ends: it begins several times, and goes on with the best plan alone.
 *
 * @param progress asked now and then for the share of the search that is over; from 1 on the search ends
 * @param first where the search begins; what it does not place is placed at once
 */
export function improve(
  problem: RoutingProblem,
  seed: number,
  progress: (steps: number) => number,
  settings: ImproveSettings = USUAL_SEARCH,
  first?: FirstPlan,
): RoutePlan & { readonly steps: number } {
  const { beginnings } = settings;
  if (beginnings === 1 || first !== undefined) return new Search(problem, seed, settings, first).run(progress);
  let steps = 0;
  let best: RoutePlan | undefined;
  for (let at = 0; at < beginnings; at += 1) {
    const before = steps;
    const found = new Search(problem, seed * beginnings + at, settings).run((done) => progress(before + done) / SHARE_OF_BEGINNING - at);
    steps += found.steps;
    if (best === undefined || found.cost < best.cost) best = found;
    if (progress(steps) >= 1) return { ...best, steps };
  }
  const begun = beginnings * SHARE_OF_BEGINNING;
  const cooler = { ...settings, startTemperature: settings.startTemperature * COOLER };
  const last = new Search(problem, seed, cooler, best).run((done) => (progress(steps + done) - begun) / (1 - begun));
  return { ...last, steps: steps + last.steps };
}
