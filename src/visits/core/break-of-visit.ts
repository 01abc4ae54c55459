import { max } from 'd3-array';
import { minutesOfDay } from './plan-facts/local-time.js';
import { type TimedWork, usualBreak } from './planner/breaks/usual-break.js';

const DAY_MINUTES = 24 * 60;

/** A break within a day, as managers entered it: HH:MM. */
export interface BreakTimes {
  readonly minutes: number;
  readonly from: string;
  readonly until: string;
}

/** A visit of one day by the clock of the site. */
export interface VisitTimes {
  readonly startTime: string;
  readonly minutes: number;
}

/**
 * Minutes of the break that lies within a visit: whoever is there from before the time for it until after has it there. Of several people the longest counts, since they end together;
 * 0 where it is had before or after, and for visits that go on past midnight.
 *
 * @example breakInVisit({ startTime: '10:00', minutes: 300 }, [{ minutes: 30, from: '11:30', until: '14:00' }]) // => 30
 * @example breakInVisit({ startTime: '12:00', minutes: 300 }, [{ minutes: 30, from: '11:30', until: '14:00' }]) // => 0
 */
export function breakInVisit({ startTime, minutes }: VisitTimes, breaks: readonly BreakTimes[]): number {
  const start = minutesOfDay(startTime);
  const within = breaks.filter((each) => start < minutesOfDay(each.from) + each.minutes && start + minutes > minutesOfDay(each.until) - each.minutes);
  return start + minutes > DAY_MINUTES ? 0 : (max(within, (each) => each.minutes) ?? 0);
}

/** A visit of somebody's day; the way is the one there from the visit before it, 0 where it is not known. */
export interface VisitOfDay extends VisitTimes {
  readonly way: number;
}

/** Whether the visits of a day, in their order, leave somebody room for the break. */
export function isRoomForBreak({ minutes, from, until }: BreakTimes, visits: readonly VisitOfDay[]): boolean {
  const timed = visits.map((visit): TimedWork => ({ start: minutesOfDay(visit.startTime), minutes: visit.minutes, promised: true, way: visit.way, home: 0 }));
  const wholeDay = { from: 0, until: DAY_MINUTES, regularUntil: DAY_MINUTES };
  return usualBreak({ minutes, from: minutesOfDay(from), until: minutesOfDay(until) }, wholeDay, timed) !== null;
}
