import type { BuiltProblem } from '../build-problem.js';
import type { DayOfSlot, StopOfSlot } from '../day-of-slot.js';
import type { Ferry, PlanInput } from '../plan-input.js';
import { ferryAtWork, lastBoat, nextBoat } from './ferry-times.js';

const ROUNDING = 1e-6;

export interface RiddenDay {
  readonly day: DayOfSlot;
  /** It takes a boat somewhere */
  readonly byFerry: boolean;
  /** With the boats as they go, a visit or the way home comes too late */
  readonly late: boolean;
}

/**
 * The day of a slot with the boats as they go: who comes to a site by ferry is there with the next landing, and leaves it with the next departure. What was promised was agreed on by
 * people who know how they get there: it is taken as it is.
 */
export function rideFerries({ sites, people, work }: PlanInput, { problem, slots }: BuiltProblem, slot: number, day: DayOfSlot): RiddenDay {
  const { person = 0, day: at = 0, pause = null } = slots[slot] ?? {};
  const ferryOf = (place: number): Ferry | undefined => {
    const ferry = sites[place - people.length]?.ferry;
    return ferry === undefined ? undefined : ferryAtWork(ferry, pause);
  };
  const { startPlace, endPlace } = day;
  const places = [startPlace, ...day.stops.map(({ node }) => node), endPlace];
  const byFerry = places.some(
    (place, at) => place !== places[at + 1] && at + 1 < places.length && (ferryOf(place) ?? ferryOf(places[at + 1] as number)) !== undefined,
  );
  if (!byFerry) return { day, byFerry, late: false };
  const { travel, visits } = problem;
  const isPromised = (stop: StopOfSlot | undefined) => stop !== undefined && visits.locked[stop.visit] === 1;
  /** The night is spent there beside what was promised of the day before, or after. */
  const isPromisedNear = (place: number, on: number) =>
    work.some(({ promised, site }) => promised?.day === on && promised.people.includes(person) && people.length + site === place);
  const isFirst = (leg: number) => leg === 0 && isPromisedNear(startPlace, at - 1);
  const isLast = (leg: number) => leg === day.stops.length && isPromisedNear(endPlace, at + 1);
  /** The boats of a leg: from a site, and to the next */
  const boats = (leg: number) => {
    const [from, to] = [places[leg] as number, places[leg + 1] as number];
    const free = from === to || isPromised(day.stops[leg - 1]) || isPromised(day.stops[leg]) || isFirst(leg) || isLast(leg);
    const way = travel.minutes[from * travel.nodes + to] as number;
    return { way, departures: free ? undefined : ferryOf(from)?.departures, landings: free ? undefined : ferryOf(to)?.landings };
  };
  const arriveAfter = (at: number, time: number) => {
    const { way, departures, landings } = boats(at);
    return nextBoat(landings, nextBoat(departures, time) + way);
  };
  const leaveBefore = (at: number, time: number) => {
    const { way, departures, landings } = boats(at);
    return lastBoat(departures, lastBoat(landings, time) - way);
  };
  const stops: StopOfSlot[] = [];
  let time = problem.slots.from[slot] as number;
  let late = false;
  for (const [at, stop] of day.stops.entries()) {
    const arrive = arriveAfter(at, time);
    const start = Math.max(arrive, stop.from);
    late ||= start > stop.until + ROUNDING;
    time = start + stop.end - stop.start;
    stops.push({ ...stop, arrive, start, end: time });
  }
  const back = arriveAfter(stops.length, time);
  if (late || back > (problem.slots.until[slot] as number) + ROUNDING) return { day, byFerry, late: true };
  for (let at = stops.length - 2; at >= 0; at -= 1) {
    const [stop, next] = [stops[at] as StopOfSlot, stops[at + 1] as StopOfSlot];
    const work = stop.end - stop.start;
    const start = Math.max(stop.start, Math.min(leaveBefore(at + 1, next.start) - work, stop.until));
    stops[at] = { ...stop, start, end: start + work };
  }
  const [first] = stops;
  const leave = first === undefined ? nextBoat(boats(0).departures, problem.slots.from[slot] as number) : leaveBefore(0, first.start);
  let left = leave;
  for (const [at, stop] of stops.entries()) {
    stops[at] = { ...stop, arrive: arriveAfter(at, left) };
    left = stop.end;
  }
  return { day: { ...day, leave, back, stops }, byFerry, late: false };
}
