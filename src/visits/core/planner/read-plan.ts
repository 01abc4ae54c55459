import { placeBreak } from './breaks/place-break.js';
import { beginByClock, endByClock } from './breaks/working-clock.js';
import type { BuiltProblem } from './build-problem.js';
import { dayOfSlot } from './day-of-slot.js';
import { rideFerries } from './ferries/ride-ferries.js';
import type { DayTour, PlanInput, VisitPlan } from './plan-input.js';
import type { RoutePlan } from './routing-problem.js';

/** The routes of a search as tours with their times by the clock, with the boats as they go, and the break where it disturbs least. */
export function readPlan(input: PlanInput, built: BuiltProblem, plan: RoutePlan): VisitPlan {
  const tours = built.slots.flatMap(({ person, day, shift: { regularUntil }, pause: usual }, slot): DayTour[] => {
    const asSearched = dayOfSlot(built, plan, slot);
    const { startPlace, endPlace } = asSearched;
    // A day without work that begins and ends away is a day of the tour: the night before and the night after are spent there.
    if (asSearched.stops.length === 0 && startPlace === person && endPlace === person) return [];
    const { day: without, byFerry } = rideFerries(input, built, slot, asSearched);
    const rule = input.people[person]?.breakRule;
    // Boats go by the clock: with one in the day the break stays where it was searched with.
    const movable = byFerry ? { ...without, stops: [] } : without;
    const pause = usual === null || rule === undefined ? null : placeBreak(rule, usual, { ...movable, regularUntil });
    // A tour that lies before or after the usual break is told by it, too.
    const than = pause ?? usual;
    const leave = beginByClock(than, without.leave);
    const stops = without.stops.map(({ visit, arrive, start, end }) => ({
      work: built.workOf[visit] as number,
      arrive: Math.max(leave, endByClock(than, arrive)),
      start: beginByClock(than, start),
      end: endByClock(than, end),
    }));
    return [{ person, day, startPlace, endPlace, leave, back: Math.max(leave, endByClock(than, without.back)), pause, stops }];
  });
  return { tours, leftOut: [...new Set(plan.unassigned.map((visit) => built.workOf[visit] as number))].sort((one, two) => one - two), cost: plan.cost };
}
