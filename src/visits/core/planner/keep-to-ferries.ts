import type { BuiltProblem } from './build-problem.js';
import { dayOfSlot } from './day-of-slot.js';
import { improve, SHORT_TOURS } from './improve.js';
import type { PlanInput } from './plan-input.js';
import { rideFerries } from './ride-ferries.js';
import type { FirstPlan, RoutePlan, RoutingProblem } from './routing-problem.js';

/** So often work that a boat comes too late for is tried in other days, then it is left out. */
const TRIES = 6;
const STEPS_AFTER = 512;

/**
 * Makes a plan keep to ferries, of which the search knows the first landing and the last departure only: in tours that do not hold with the boats as they go, work at sites by ferry is
 * put elsewhere. Few sites are reached so, and few of their days are too tight.
 */
export function keepToFerries(built: BuiltProblem, input: PlanInput, found: RoutePlan, seed: number): RoutePlan {
  if (input.sites.every(({ ferry }) => ferry === undefined)) return found;
  const { visits, slots } = built.problem;
  const allSlots = Array.from({ length: slots.count }, (_, slot) => slot);
  let problem = built.problem;
  let best = found;
  for (let tries = 1; ; tries += 1) {
    const late = allSlots.filter((slot) => rideFerries(input, built, slot, dayOfSlot(built, best, slot)).late);
    const tours = late.map((slot) => tourAround(built, best, slot));
    const barred = tours.flatMap(blamed).map(({ visit, slot }) => ({ visit, slot: tries > TRIES ? null : slot }));
    // What is left is promised, and agreed on by people who know how they get there.
    if (barred.length === 0) return best;
    problem = without(problem, barred);
    best = improve(problem, seed + tries, (steps) => steps / STEPS_AFTER, SHORT_TOURS, emptied(tours.flat()));
  }

  /** Work at sites by ferry, else any. */
  function blamed(tour: readonly number[]): readonly { readonly visit: number; readonly slot: number }[] {
    const free = tour.flatMap((slot) => freeIn(slot).map((visit) => ({ visit, slot })));
    const byFerry = free.filter(({ visit }) => isByFerry(visit));
    return byFerry.length > 0 ? byFerry : free;
  }

  function freeIn(slot: number): readonly number[] {
    return (best.routes[slot] ?? []).filter((visit) => visits.locked[visit] === 0);
  }

  function isByFerry(visit: number): boolean {
    return input.sites[(visits.node[visit] as number) - input.people.length]?.ferry !== undefined;
  }

  /** The plan without the free work of these slots, and with nights away only beside what was promised there. */
  function emptied(tours: readonly number[]): FirstPlan {
    const out = new Set(tours.flatMap(freeIn).flatMap((visit) => built.visitsOf[built.workOf[visit] as number] ?? []));
    const left = (of: readonly (readonly number[])[]) => of.map((values, slot) => values.filter((_, at) => !out.has(best.routes[slot]?.[at] as number)));
    const promisedAt = new Set(tours.flatMap((slot) => (best.routes[slot] ?? []).filter((visit) => !out.has(visit)).map((visit) => visits.node[visit])));
    const emptiedSlots = new Set(tours);
    const places = (of: readonly number[], home: Int32Array) =>
      of.map((place, slot) => (emptiedSlots.has(slot) && !promisedAt.has(place) ? (home[slot] as number) : place));
    return {
      options: left(best.options),
      agreed: left(best.agreed),
      startNode: places(best.startNode, slots.startNode),
      endNode: places(best.endNode, slots.endNode),
    };
  }
}

/** The slots of the tour that a slot is part of, over all nights away. */
function tourAround({ problem: { nights, slots } }: BuiltProblem, plan: RoutePlan, slot: number): number[] {
  const along = (from: number, side: 'before' | 'after'): number[] => {
    const isAway = side === 'before' ? plan.startNode[from] !== slots.startNode[from] : plan.endNode[from] !== slots.endNode[from];
    const next = nights?.[side][from] ?? -1;
    return isAway && next >= 0 ? [next, ...along(next, side)] : [];
  };
  return [...along(slot, 'before'), slot, ...along(slot, 'after')];
}

/** The options of visits in a slot, or in all of them, have no time left in which they could begin; their numbers stay. */
function without(problem: RoutingProblem, barred: readonly { readonly visit: number; readonly slot: number | null }[]): RoutingProblem {
  const { offset, slot: slotOf } = problem.options;
  const until = problem.options.until.slice();
  for (const { visit, slot } of barred) {
    for (let option = offset[visit] as number; option < (offset[visit + 1] as number); option += 1)
      if (slot === null || slotOf[option] === slot) until[option] = Number.NEGATIVE_INFINITY;
  }
  return { ...problem, options: { ...problem.options, until } };
}
