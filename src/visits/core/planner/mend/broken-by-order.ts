import { beginByClock, endByClock, toWorking } from '../breaks/working-clock.js';
import type { BuiltProblem } from '../build-problem.js';
import { type DayOfSlot, dayOfSlot } from '../day-of-slot.js';
import { rideFerries } from '../ferries/ride-ferries.js';
import type { PlanInput } from '../plan-input.js';
import type { RoutePlan } from '../routing-problem.js';
import type { Ban, Broken } from './broken.js';
import { freeIn, tourAround } from './tour-around.js';

const ROUNDING = 1e-6;

/** A visit where the plan has it, by the clock; of two slots the breaks may still be moved, by which each may come earlier or later. */
interface Placed {
  readonly visit: number;
  readonly slot: number;
  readonly at: number;
  readonly start: number;
  readonly end: number;
  /** Without the break */
  readonly working: number;
}

/**
 * Work that a plan has before the work that it is to come after, or without it: it comes later, or, where it was promised, the other one sooner. A promise without the work
 * before it stays.
 */
export function brokenByOrder(built: BuiltProblem, input: PlanInput, plan: RoutePlan): Broken[] {
  if (input.work.every(({ after }) => after === undefined)) return [];
  const { visits, slots, options } = built.problem;
  const slotOf = new Map(plan.routes.flatMap((route, slot) => route.map((visit) => [visit, slot] as const)));
  const days = new Map<number, DayOfSlot>();
  return input.work.flatMap(({ after = [] }, at): Broken[] => {
    const own = placesOf(at);
    if (own.length === 0) return [];
    return after.flatMap((other): Broken[] => {
      const before = placesOf(other);
      if (before.length > 0 && own.every((two) => before.every((one) => isBefore(one, two)))) return [];
      if (own.some(({ visit }) => visits.locked[visit] === 0))
        return [brokenOf(own, before.length === 0 ? own.map(notAtAll) : own.flatMap(({ visit }) => notBefore(visit, before)))];
      return before.some(({ visit }) => visits.locked[visit] === 0)
        ? [
            brokenOf(
              before,
              before.flatMap(({ visit }) => notAfter(visit, own)),
            ),
          ]
        : [];
    });
  });

  function placesOf(work: number): Placed[] {
    return (built.visitsOf[work] ?? []).flatMap((visit): Placed[] => {
      const slot = slotOf.get(visit);
      if (slot === undefined) return [];
      const day = days.get(slot) ?? rideFerries(input, built, slot, dayOfSlot(built, plan, slot)).day;
      days.set(slot, day);
      const at = day.stops.findIndex((stop) => stop.visit === visit);
      const stop = day.stops[at];
      const pause = pauseOf(slot);
      return stop === undefined ? [] : [{ visit, slot, at, start: beginByClock(pause, stop.start), end: endByClock(pause, stop.end), working: stop.end }];
    });
  }

  function pauseOf(slot: number) {
    return built.slots[slot]?.pause ?? null;
  }

  /** Of two slots of one day, so that a break that is moved in either changes nothing. */
  function between(one: number, two: number): number {
    const lengths = [one, two].map((slot) => (pauseOf(slot)?.until ?? 0) - (pauseOf(slot)?.from ?? 0));
    return lengths.reduce((sum, length) => sum + length, 0);
  }

  function isBefore(one: Placed, two: Placed): boolean {
    const [day, other] = [slots.day[one.slot] as number, slots.day[two.slot] as number];
    if (day !== other) return day < other;
    return one.slot === two.slot ? one.at < two.at : one.end + between(one.slot, two.slot) <= two.start + ROUNDING;
  }

  function brokenOf(places: readonly Placed[], bans: readonly Ban[]): Broken {
    const tours = [...new Set(places.map(({ slot }) => slot))].map((slot) => tourAround(built, plan, slot));
    const overnight = tours.filter((tour) => tour.length > 1).flat();
    return { out: [...places, ...freeIn(built, plan, overnight)].map(({ visit }) => visit), tour: overnight, bans };
  }

  function notAtAll({ visit }: Placed): Ban {
    return { visit, slot: null };
  }

  /** In no slot before the others, and on their day not before they are done. */
  function notBefore(visit: number, before: readonly Placed[]): Ban[] {
    return slotsOf(visit).flatMap((slot) =>
      before.flatMap((one): Ban[] => {
        const [day, then] = [slots.day[slot] as number, slots.day[one.slot] as number];
        if (day > then) return [];
        if (day < then) return [{ visit, slot }];
        return [{ visit, slot, from: slot === one.slot ? one.working : toWorking(pauseOf(slot), one.end + between(slot, one.slot)) }];
      }),
    );
  }

  function notAfter(visit: number, later: readonly Placed[]): Ban[] {
    const work = visits.serviceMinutes[visit] as number;
    return slotsOf(visit).flatMap((slot) =>
      later.flatMap((two): Ban[] => {
        const [day, then] = [slots.day[slot] as number, slots.day[two.slot] as number];
        if (day < then) return [];
        if (day > then) return [{ visit, slot }];
        const until = slot === two.slot ? two.start : two.start - between(slot, two.slot);
        return [{ visit, slot, until: toWorking(pauseOf(slot), until) - work }];
      }),
    );
  }

  function slotsOf(visit: number): number[] {
    return [...new Set(options.slot.subarray(options.offset[visit], options.offset[visit + 1]))];
  }
}
