import type { BuiltProblem } from '../build-problem.js';
import { improve, SHORT_TOURS } from '../improve.js';
import type { PlanInput } from '../plan-input.js';
import type { FirstPlan, RoutePlan, RoutingProblem } from '../routing-problem.js';
import type { Ban } from './broken.js';
import { brokenByFerries } from './broken-by-ferries.js';
import { brokenByOrder } from './broken-by-order.js';

/** So often work is tried at other times, then it is left out. */
const TRIES = 6;
const STEPS_AFTER = 512;

/**
 * Makes a plan keep what the search does not weigh: ferries, and the order of work. What breaks it is taken out, kept from being put there again, and put elsewhere; where nothing else
 * helps it is left out. Little work is bound so, and every search is quicker for not asking.
 */
export function mendPlan(built: BuiltProblem, input: PlanInput, found: RoutePlan, seed: number): RoutePlan {
  let problem = built.problem;
  let best = found;
  for (let tries = 1; ; tries += 1) {
    const broken = [...brokenByFerries(built, input, best), ...brokenByOrder(built, input, best)];
    if (broken.length === 0) return best;
    const bans = broken.flatMap((each) => each.bans).map((ban) => (tries > TRIES ? { visit: ban.visit, slot: null } : ban));
    problem = withBans(problem, bans);
    const out = new Set(broken.flatMap((each) => each.out).flatMap((visit) => built.visitsOf[built.workOf[visit] as number] ?? []));
    best = improve(
      problem,
      seed + tries,
      (steps) => steps / STEPS_AFTER,
      SHORT_TOURS,
      emptied(problem, best, out, new Set(broken.flatMap(({ tour }) => tour))),
    );
  }
}

/** Options keep their numbers; one that is barred has no time left in which work could begin. */
function withBans(problem: RoutingProblem, bans: readonly Ban[]): RoutingProblem {
  const { offset, slot: slotOf } = problem.options;
  const [from, until] = [Float64Array.from(problem.options.from), Float64Array.from(problem.options.until)];
  for (const ban of bans) {
    for (let option = offset[ban.visit] as number; option < (offset[ban.visit + 1] as number); option += 1) {
      if (ban.slot !== null && slotOf[option] !== ban.slot) continue;
      if (ban.from !== undefined) from[option] = Math.max(from[option] as number, ban.from);
      else until[option] = Math.min(until[option] as number, ban.until ?? Number.NEGATIVE_INFINITY);
      if ((from[option] as number) > (until[option] as number)) until[option] = Number.NEGATIVE_INFINITY;
    }
  }
  return { ...problem, options: { ...problem.options, from, until } };
}

/** The plan without these visits, and in these slots with nights away only beside work that stays. */
function emptied({ visits, slots }: RoutingProblem, plan: RoutePlan, out: ReadonlySet<number>, tours: ReadonlySet<number>): FirstPlan {
  const left = (of: readonly (readonly number[])[]) => of.map((values, slot) => values.filter((_, at) => !out.has(plan.routes[slot]?.[at] as number)));
  const stays = new Set([...tours].flatMap((slot) => (plan.routes[slot] ?? []).filter((visit) => !out.has(visit)).map((visit) => visits.node[visit])));
  const places = (of: readonly number[], home: Int32Array) => of.map((place, slot) => (tours.has(slot) && !stays.has(place) ? (home[slot] as number) : place));
  return {
    options: left(plan.options),
    agreed: left(plan.agreed),
    startNode: places(plan.startNode, slots.startNode),
    endNode: places(plan.endNode, slots.endNode),
  };
}
