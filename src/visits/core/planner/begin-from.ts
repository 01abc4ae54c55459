import { group } from 'd3-array';
import { isWithin } from './breaks/usual-break.js';
import { toWorking } from './breaks/working-clock.js';
import type { BuiltProblem } from './build-problem.js';
import type { FirstPlan } from './routing-problem.js';

/** Where work was put before. */
export interface EarlierPlace {
  readonly work: number;
  readonly person: number;
  readonly day: number;
  readonly start: number;
}

interface Stop {
  readonly visit: number;
  readonly wanted: number;
  /** Work of two people begins when it did */
  readonly isPair: boolean;
  readonly locked: boolean;
}

interface Placed {
  readonly visit: number;
  readonly option: number;
  readonly agreed: number;
}

/**
 * An earlier plan as a beginning for the search, day by day from home to home. What does not fit any more, since somebody is away, work takes longer or something was promised in
 * between, is left to the search; what was promised stays, and what stands in its way is taken out.
 */
export function beginFrom({ problem, slots, visitsOf }: BuiltProblem, places: readonly EarlierPlace[]): FirstPlan {
  const { visits } = problem;
  const slotAt = new Map(slots.map(({ person, day }, slot) => [`${person} ${day}`, slot]));
  const bySlot = slots.map((): Stop[] => []);
  const crews = group(places, ({ work, day }) => `${work} ${day}`);
  const taken = new Set<number>();
  for (const { work, person, day, start } of places) {
    const slot = slotAt.get(`${person} ${day}`);
    const halves = visitsOf[work] ?? [];
    const visit = halves.find((half) => !taken.has(half) && (slot === undefined || optionsIn(half, slot).length > 0));
    if (slot === undefined || visit === undefined || (visits.locked[visit] === 0 && !breaksTogether(work, day, start))) continue;
    taken.add(visit);
    bySlot[slot]?.push({ visit, wanted: toWorking(slots[slot]?.pause ?? null, start), isPair: halves.length > 1, locked: visits.locked[visit] === 1 });
  }
  const placed = bySlot.map((stops, slot) => fitting(stops, slot));
  // Of work of two people that lost one of them, the other goes too.
  const there = new Set(placed.flatMap((stops) => stops.map(({ visit }) => visit)));
  const whole = (visit: number) => (visitsOf.find((halves) => halves.includes(visit)) ?? []).every((half) => there.has(half));
  const kept = placed.map((stops) => stops.filter(({ visit }) => whole(visit)));
  return {
    options: kept.map((stops) => stops.map(({ option }) => option)),
    agreed: kept.map((stops) => stops.map(({ agreed }) => agreed)),
    startNode: [...problem.slots.startNode],
    endNode: [...problem.slots.endNode],
  };

  /** Nobody would work alone while the other of two has a break, nor begin in one. */
  function breaksTogether(work: number, day: number, start: number): boolean {
    const crew = crews.get(`${work} ${day}`) ?? [];
    if (crew.length < 2) return true;
    const end = start + (visits.serviceMinutes[visitsOf[work]?.[0] ?? 0] as number);
    const pauses = crew.map(({ person }) => slots[slotAt.get(`${person} ${day}`) ?? -1]?.pause ?? null);
    const together = pauses.every((pause) => pause?.from === pauses[0]?.from && pause?.until === pauses[0]?.until);
    return pauses.every((pause) => pause === null || (together ? !isWithin(pause, start) : end <= pause.from || start >= pause.until));
  }

  function optionsIn(visit: number, slot: number): number[] {
    const { offset, slot: slotOf } = problem.options;
    const first = offset[visit] as number;
    return Array.from({ length: (offset[visit + 1] as number) - first }, (_, at) => first + at).filter((option) => slotOf[option] === slot);
  }

  /** As many of the stops as fit into the day, in their order. */
  function fitting(stops: readonly Stop[], slot: number): Placed[] {
    const rest = stops.toSorted((one, two) => one.wanted - two.wanted);
    for (;;) {
      const driven = drive(rest, slot);
      if (driven.late < 0) return driven.placed;
      const free = rest.findLastIndex((stop, at) => at <= driven.late && !stop.locked);
      rest.splice(free >= 0 ? free : Math.min(driven.late, rest.length - 1), 1);
    }
  }

  /** The first stop that comes too late, or the number of stops where the way home does; -1: all is in time. */
  function drive(stops: readonly Stop[], slot: number): { placed: Placed[]; late: number } {
    const { travel, options } = problem;
    const home = problem.slots.startNode[slot] as number;
    const placed: Placed[] = [];
    let place = home;
    let time = problem.slots.from[slot] as number;
    for (const [at, { visit, wanted, isPair }] of stops.entries()) {
      const there = visits.node[visit] as number;
      const arrival = time + (travel.minutes[place * travel.nodes + there] as number);
      const option = optionsIn(visit, slot).find((each) => {
        const [from, until] = [options.from[each] as number, options.until[each] as number];
        return isPair ? wanted >= from && wanted <= until && arrival <= wanted : arrival <= until;
      });
      if (option === undefined) return { placed, late: at };
      const begin = isPair ? wanted : Math.max(arrival, options.from[option] as number);
      placed.push({ visit, option, agreed: isPair ? wanted : Number.NaN });
      time = begin + (visits.serviceMinutes[visit] as number);
      place = there;
    }
    const back = time + (travel.minutes[place * travel.nodes + home] as number);
    return { placed, late: stops.length > 0 && back > (problem.slots.until[slot] as number) ? stops.length : -1 };
  }
}
