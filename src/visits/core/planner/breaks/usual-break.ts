import { least } from 'd3-array';
import type { BreakRule, DayTour, PlanInput, Shift, Span } from '../plan-input.js';
import { toWorking } from './working-clock.js';

const ROUNDING = 1e-6;

/** Work of a day whose time is known, in its order, by the clock of the day. */
export interface TimedWork {
  readonly start: number;
  readonly minutes: number;
  /** Promised, and not only planned */
  readonly promised: boolean;
  /** Of the way there from the promised one before, or from home */
  readonly way: number;
  /** Of the way home from there */
  readonly home: number;
}

/**
 * When somebody takes the break of a day while a plan is searched: in the middle of the time that is left for it, or, where visits have their time, where it interrupts none of them if
 * that can be. Null: none is asked for, the shift ends before or begins after the time for it, or what was promised leaves no room.
 *
 * @example usualBreak({ minutes: 30, from: 690, until: 840 }, { from: 420, until: 1020, regularUntil: 960 }, []) // => { "from": 750, "until": 780 }
 * @example usualBreak({ minutes: 30, from: 690, until: 840 }, { from: 420, until: 720, regularUntil: 720 }, []) // => null
 */
export function usualBreak(rule: BreakRule | undefined, shift: Shift, timed: readonly TimedWork[]): Span | null {
  if (rule === undefined) return null;
  const [first, last] = [Math.max(rule.from, shift.from), rule.until - rule.minutes];
  if (shift.from >= rule.from + rule.minutes || shift.until <= last || first > last) return null;
  const moments = [(first + last) / 2, first, last, ...timed.flatMap(({ start, minutes }) => [start - rule.minutes, start + minutes])];
  const promised = timed.filter((work) => work.promised);
  const possible = moments
    .filter((from) => from >= first && from <= last)
    .map((from) => ({ from, until: from + rule.minutes }))
    .filter((pause) => leavesRoom(pause, promised));
  const fromHome = possible.filter((pause) => leavesWays(pause, shift, promised));
  // What is not reached from home even without a break is reached from a night near it.
  const chosen = fromHome.length > 0 || leavesWays(null, shift, promised) ? fromHome : possible;
  return (
    least(chosen, (pause) => timed.filter((work) => interrupts(pause, work)).length + 2 * timed.filter((work) => isWithin(pause, work.start)).length) ?? null
  );
}

/** Whether a moment lies in a break, its beginning included. */
export const isWithin = (pause: Span | null, clock: number): boolean => pause !== null && clock >= pause.from && clock < pause.until;

/** Whether somebody is out in the time for the break: over before its last moment, or begun after its first one, a tour leaves time for it at home. */
export const isOutInBreak = ({ from, until, minutes }: BreakRule, { leave, back }: Pick<DayTour, 'leave' | 'back'>): boolean =>
  leave < from + minutes && back > until - minutes;

const interrupts = (pause: Span, { start, minutes }: TimedWork) => start < pause.from && pause.from < start + minutes;

/** Nothing begins within the break, and what follows is reached in time, as far as it would be without a break. */
function leavesRoom(pause: Span, promised: readonly TimedWork[]): boolean {
  return promised.every(({ start, way }, at) => {
    if (isWithin(pause, start)) return false;
    const before = promised[at - 1];
    const isReached = (than: Span | null) => before === undefined || toWorking(than, before.start) + before.minutes + way <= toWorking(than, start) + ROUNDING;
    return isReached(pause) || !isReached(null);
  });
}

/** From home to the first and from the last back home, within the shift. */
function leavesWays(pause: Span | null, shift: Shift, promised: readonly TimedWork[]): boolean {
  const [first, last] = [promised[0], promised.at(-1)];
  if (first === undefined || last === undefined) return true;
  const isReached = toWorking(pause, shift.from) + first.way <= toWorking(pause, first.start) + ROUNDING;
  return isReached && toWorking(pause, last.start) + last.minutes + last.home <= toWorking(pause, shift.until) + ROUNDING;
}

/** What has its time in a plan, of each person and day: what is promised, and what is planned with a time. */
export function timedWorkOf({ people, sites, work, travel }: PlanInput): (person: number, day: number) => readonly TimedWork[] {
  const places = people.length + sites.length;
  const byDay = new Map<string, { start: number; minutes: number; promised: boolean; place: number }[]>();
  for (const { promised, published, minutes, site } of work) {
    const then = promised ?? published;
    if (then?.start === undefined) continue;
    for (const person of then.people) {
      const key = `${person} ${then.day}`;
      const timed = byDay.get(key) ?? [];
      timed.push({ start: then.start, minutes, promised: promised !== null, place: people.length + site });
      byDay.set(key, timed);
    }
  }
  return (person, day) => {
    let before = person;
    const timed = (byDay.get(`${person} ${day}`) ?? []).toSorted((one, two) => one.start - two.start);
    return timed.map(({ place, ...work }) => {
      const way = travel.minutes[before * places + place] as number;
      if (work.promised) before = place;
      return { ...work, way, home: travel.minutes[place * places + person] as number };
    });
  };
}
