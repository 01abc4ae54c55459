import type { BuiltProblem } from './build-problem.js';
import { type DayWithoutBreak, placeBreak, type StopWithoutBreak } from './place-break.js';
import type { DayTour, PlanInput, VisitPlan } from './plan-input.js';
import type { RoutePlan } from './routing-problem.js';
import { beginByClock, endByClock } from './working-clock.js';

/**
 * The routes of a search as tours with their times by the clock: each comes home as early as it can and leaves as late as it can for that, so that nobody waits who could have left later,
 * and has its break where it disturbs least.
 */
export function readPlan({ people }: Pick<PlanInput, 'people'>, built: BuiltProblem, plan: RoutePlan): VisitPlan {
  const tours = built.slots.flatMap(({ person, day, shift: { regularUntil }, pause: usual }, slot): DayTour[] => {
    const startPlace = plan.startNode[slot] as number;
    const endPlace = plan.endNode[slot] as number;
    // A day without work that begins and ends away is a day of the tour: the night before and the night after are spent there.
    if (plan.routes[slot]?.length === 0 && startPlace === person && endPlace === person) return [];
    const without = dayWithoutBreak(built, plan, slot);
    const rule = people[person]?.breakRule;
    const pause = usual === null || rule === undefined ? null : placeBreak(rule, usual, { ...without, regularUntil });
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

function dayWithoutBreak({ problem }: BuiltProblem, plan: RoutePlan, slot: number): DayToRead {
  const { travel, visits, options } = problem;
  const way = (from: number, to: number) => travel.minutes[from * travel.nodes + to] as number;
  const nodeOf = ({ visit }: Stop) => visits.node[visit] as number;
  const [startPlace, endPlace] = [plan.startNode[slot] as number, plan.endNode[slot] as number];
  const stops = (plan.routes[slot] ?? []).map((visit, at): Stop => {
    const [option, agreed, start] = [plan.options[slot]?.[at], plan.agreed[slot]?.[at], plan.starts[slot]?.[at]] as [number, number, number];
    const fixed = !Number.isNaN(agreed);
    const [from, until] = fixed ? [agreed, agreed] : [options.from[option] as number, options.until[option] as number];
    return { visit, arrive: start, start, end: start + (visits.serviceMinutes[visit] as number), from, until, fixed };
  });
  for (let at = stops.length - 2; at >= 0; at -= 1) {
    const [stop, next] = [stops[at] as Stop, stops[at + 1] as Stop];
    const work = visits.serviceMinutes[stop.visit] as number;
    const start = Math.max(stop.start, Math.min(next.start - way(nodeOf(stop), nodeOf(next)) - work, stop.until));
    stops[at] = { ...stop, arrive: start, start, end: start + work };
  }
  for (let at = 1; at < stops.length; at += 1) {
    const [before, stop] = [stops[at - 1] as Stop, stops[at] as Stop];
    stops[at] = { ...stop, arrive: before.end + way(nodeOf(before), nodeOf(stop)) };
  }
  const [first, last] = [stops[0], stops.at(-1)];
  const leave = first === undefined ? (problem.slots.from[slot] as number) : first.start - way(startPlace, nodeOf(first));
  return { leave, back: last === undefined ? leave + way(startPlace, endPlace) : last.end + way(nodeOf(last), endPlace), stops };
}

interface DayToRead extends Omit<DayWithoutBreak, 'regularUntil'> {
  readonly stops: readonly Stop[];
}

interface Stop extends StopWithoutBreak {
  readonly visit: number;
}
