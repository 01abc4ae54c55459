import type { BuiltProblem } from './build-problem.js';
import { improve, SHORT_TOURS } from './improve.js';
import type { PlanInput } from './plan-input.js';
import type { FirstPlan, RoutePlan } from './routing-problem.js';

/** Of work that comes before all that is not promised. */
export const URGENT_FROM = 20_000;
const TRIES = 4;
const STEPS_AFTER = 1024;

/**
 * Puts urgent work in that a search has left out, where there is a place for it beside what was promised and other urgent work: everything else gives way and is put back where it
 * still fits. What stays out has no such place.
 */
export function makeRoom({ problem, visitsOf }: BuiltProblem, { work }: PlanInput, found: RoutePlan, seed: number): RoutePlan {
  const urgent = new Set(visitsOf.flatMap((visits, at) => (isUrgent(at) ? visits : [])));
  const leftOut = (plan: RoutePlan) => plan.unassigned.filter((visit) => urgent.has(visit)).length;
  let best = found;
  for (let tries = 1; tries <= TRIES && leftOut(best) > 0; tries += 1) {
    const roomy = improve(problem, seed + tries, () => 1, SHORT_TOURS, onlyFirst(best));
    if (leftOut(roomy) >= leftOut(best)) continue;
    best = improve(problem, seed + tries, (steps) => steps / STEPS_AFTER, SHORT_TOURS, roomy);
  }
  return best;

  function isUrgent(at: number): boolean {
    const item = work[at];
    return item !== undefined && item.promised === null && item.unassignedCost >= URGENT_FROM;
  }

  function onlyFirst(plan: RoutePlan): FirstPlan {
    const stays = plan.routes.map((visits) => visits.map((visit) => problem.visits.locked[visit] === 1 || urgent.has(visit)));
    const only = (of: readonly (readonly number[])[]) => of.map((values, slot) => values.filter((_, at) => stays[slot]?.[at]));
    return { options: only(plan.options), agreed: only(plan.agreed), startNode: plan.startNode, endNode: plan.endNode };
  }
}
