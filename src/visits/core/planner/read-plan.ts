import type { BuiltProblem } from './build-problem.js';
import type { DayTour, VisitPlan } from './plan-input.js';
import type { FirstPlan, RoutePlan } from './routing-problem.js';

/** The routes of a search as tours with their times: each comes home as early as it can and leaves as late as it can for that, so that nobody waits who could have left later. */
export function readPlan({ problem, slots, workOf }: BuiltProblem, plan: RoutePlan): VisitPlan {
  const { travel, slots: table } = problem;
  const way = (from: number, to: number) => travel.minutes[from * travel.nodes + to] as number;
  const tours = slots.flatMap(({ person, day }, slot): DayTour[] => {
    const visits = plan.routes[slot] ?? [];
    const startPlace = plan.startNode[slot] as number;
    const endPlace = plan.endNode[slot] as number;
    // A day without work that begins and ends away is a day of the tour: the night before and the night after are spent there.
    if (visits.length === 0 && startPlace === person && endPlace === person) return [];
    const nodes = visits.map((visit) => problem.visits.node[visit] as number);
    const starts = visits.map((_, at) => plan.starts[slot]?.[at] as number);
    for (let at = visits.length - 2; at >= 0; at -= 1) {
      const inTime =
        (starts[at + 1] as number) - way(nodes[at] as number, nodes[at + 1] as number) - (problem.visits.serviceMinutes[visits[at] as number] as number);
      const agreed = plan.agreed[slot]?.[at] as number;
      const latest = Number.isNaN(agreed) ? (problem.options.until[plan.options[slot]?.[at] as number] as number) : agreed;
      starts[at] = Math.max(starts[at] as number, Math.min(inTime, latest));
    }
    const ends = visits.map((visit, at) => (starts[at] as number) + (problem.visits.serviceMinutes[visit] as number));
    const leave = visits.length === 0 ? (table.from[slot] as number) : (starts[0] as number) - way(startPlace, nodes[0] as number);
    const back = visits.length === 0 ? leave + way(startPlace, endPlace) : (ends.at(-1) as number) + way(nodes.at(-1) as number, endPlace);
    const stops = visits.map((visit, at) => ({
      work: workOf[visit] as number,
      arrive: at === 0 ? (starts[0] as number) : (ends[at - 1] as number) + way(nodes[at - 1] as number, nodes[at] as number),
      start: starts[at] as number,
      end: ends[at] as number,
    }));
    return [{ person, day, startPlace, endPlace, leave, back, stops }];
  });
  return { tours, leftOut: [...new Set(plan.unassigned.map((visit) => workOf[visit] as number))].sort((one, two) => one - two), cost: plan.cost };
}

/** An earlier plan as a beginning for the search; what no longer has an option there is left to the search. */
export function firstPlanOf({ problem, slots, visitsOf }: BuiltProblem, tours: readonly DayTour[]): FirstPlan {
  const { offset, slot: slotOf, from, until } = problem.options;
  const slotAt = new Map(slots.map(({ person, day }, slot) => [`${person} ${day}`, slot]));
  const first = {
    options: slots.map((): number[] => []),
    agreed: slots.map((): number[] => []),
    startNode: [...problem.slots.startNode],
    endNode: [...problem.slots.endNode],
  };
  const taken = new Set<number>();
  for (const tour of tours) {
    const slot = slotAt.get(`${tour.person} ${tour.day}`);
    if (slot === undefined) continue;
    first.startNode[slot] = tour.startPlace;
    first.endNode[slot] = tour.endPlace;
    for (const { work, start } of tour.stops) {
      const visits = visitsOf[work] ?? [];
      const visit = visits.find((half) => !taken.has(half) && optionIn(half) >= 0);
      if (visit === undefined) continue;
      taken.add(visit);
      first.options[slot]?.push(optionIn(visit));
      first.agreed[slot]?.push(visits.length > 1 ? start : Number.NaN);

      function optionIn(half: number): number {
        for (let option = offset[half] as number; option < (offset[half + 1] as number); option += 1) {
          if (slotOf[option] === slot && start >= (from[option] as number) - 1 && start <= (until[option] as number) + 1) return option;
        }
        return -1;
      }
    }
  }
  return first;
}
