import type { BuiltProblem } from '../build-problem.js';
import { dayOfSlot } from '../day-of-slot.js';
import { rideFerries } from '../ferries/ride-ferries.js';
import type { PlanInput } from '../plan-input.js';
import type { RoutePlan } from '../routing-problem.js';
import type { Broken } from './broken.js';
import { freeIn, tourAround } from './tour-around.js';

/**
 * Tours that do not hold with the boats as they go, of which the search knows the first landing and the last departure only: their work at sites by ferry, else any, goes elsewhere.
 * What is left is promised, and agreed on by people who know how they get there.
 */
export function brokenByFerries(built: BuiltProblem, input: PlanInput, plan: RoutePlan): Broken[] {
  if (input.sites.every(({ ferry }) => ferry === undefined)) return [];
  const { visits, slots } = built.problem;
  const isByFerry = (visit: number) => input.sites[(visits.node[visit] as number) - input.people.length]?.ferry !== undefined;
  const late = Array.from({ length: slots.count }, (_, slot) => slot).filter((slot) => rideFerries(input, built, slot, dayOfSlot(built, plan, slot)).late);
  return late.flatMap((slot): Broken[] => {
    const tour = tourAround(built, plan, slot);
    const free = freeIn(built, plan, tour);
    const byFerry = free.filter(({ visit }) => isByFerry(visit));
    return free.length === 0 ? [] : [{ out: free.map(({ visit }) => visit), tour, bans: byFerry.length > 0 ? byFerry : free }];
  });
}
