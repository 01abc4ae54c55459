import type { DayWithoutBreak, StopWithoutBreak } from './breaks/place-break.js';
import type { BuiltProblem } from './build-problem.js';
import type { RoutePlan } from './routing-problem.js';

export interface StopOfSlot extends StopWithoutBreak {
  readonly visit: number;
  readonly node: number;
}

/** What a slot of a plan holds, in minutes without the break. */
export interface DayOfSlot extends Omit<DayWithoutBreak, 'regularUntil'> {
  readonly startPlace: number;
  readonly endPlace: number;
  readonly stops: readonly StopOfSlot[];
}

/** The day of a slot: home as early as it can be, and left as late as it can for that, so that nobody waits who could have left later. */
export function dayOfSlot({ problem }: BuiltProblem, plan: RoutePlan, slot: number): DayOfSlot {
  const { travel, visits, options, slots } = problem;
  const way = (from: number, to: number) => travel.minutes[from * travel.nodes + to] as number;
  const [startPlace, endPlace] = [plan.startNode[slot] as number, plan.endNode[slot] as number];
  const stops = (plan.routes[slot] ?? []).map((visit, at): StopOfSlot => {
    const [option, agreed, earliest] = [plan.options[slot]?.[at], plan.agreed[slot]?.[at], plan.starts[slot]?.[at]] as [number, number, number];
    const fixed = !Number.isNaN(agreed);
    const [from, until] = fixed ? [agreed, agreed] : [options.from[option] as number, options.until[option] as number];
    // The search lets pass what is late by rounding alone.
    const start = Math.min(earliest, until);
    const [node, end] = [visits.node[visit] as number, start + (visits.serviceMinutes[visit] as number)];
    return { visit, node, arrive: start, start, end, from, until, fixed };
  });
  for (let at = stops.length - 2; at >= 0; at -= 1) {
    const [stop, next] = [stops[at] as StopOfSlot, stops[at + 1] as StopOfSlot];
    const start = Math.max(stop.start, Math.min(next.start - way(stop.node, next.node) - (stop.end - stop.start), stop.until));
    stops[at] = { ...stop, arrive: start, start, end: start + (stop.end - stop.start) };
  }
  for (let at = 1; at < stops.length; at += 1) {
    const [before, stop] = [stops[at - 1] as StopOfSlot, stops[at] as StopOfSlot];
    stops[at] = { ...stop, arrive: before.end + way(before.node, stop.node) };
  }
  const [first, last] = [stops[0], stops.at(-1)];
  const leave = first === undefined ? (slots.from[slot] as number) : first.start - way(startPlace, first.node);
  const back = last === undefined ? leave + way(startPlace, endPlace) : last.end + way(last.node, endPlace);
  return { startPlace, endPlace, leave, back, stops };
}
