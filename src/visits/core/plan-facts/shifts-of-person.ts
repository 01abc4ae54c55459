import { type Day, dayPlus } from '../../../shared/day.js';
import type { Shift } from '../planner/plan-input.js';
import type { PersonFacts } from './facts.js';
import { minutesOfDay, weekday } from './local-time.js';

const HOUR = 60;
const DAY_MINUTES = 24 * HOUR;

/** Whether a day lies in one of these stretches of days, the first and the last included. */
export const isWithin = (spans: readonly { readonly from: Day; readonly until: Day }[], day: Day): boolean =>
  spans.some(({ from, until }) => day >= from && day <= until);

/**
 * The shifts of somebody, day by day of a plan. Before a day of work the day ends so early that the rest between the two is kept, whatever is done; overtime of a week is shared
 * evenly by its days of work from the first day on, after what visits that stay take of it and what was had before. So rest and overtime need no look at other days while a plan is searched.
 *
 * @param needed minutes of overtime that visits that stay take, by the number of the day
 * @param before minutes of overtime in the week of the first day, before it
 */
export function shiftsOfPerson(person: PersonFacts, firstDay: Day, days: number, needed: ReadonlyMap<number, number>, before = 0): (Shift | null)[] {
  const shift = { from: minutesOfDay(person.shiftFrom), until: minutesOfDay(person.shiftUntil), regularUntil: minutesOfDay(person.regularUntil) };
  const works = (day: Day) => person.workDays.includes(weekday(day)) && !isWithin(person.daysOff, day);
  const rest = person.restHours ?? null;
  const rested = rest === null ? DAY_MINUTES : shift.from + DAY_MINUTES - rest * HOUR;
  const limits = overtimeByDay(person, works, firstDay, days, needed, before);
  return Array.from({ length: days }, (_, at) => {
    const day = dayPlus(firstDay, at);
    if (!works(day)) return null;
    const byRest = works(dayPlus(day, 1)) ? rested : DAY_MINUTES;
    const byOvertime = shift.regularUntil + (limits?.[at] ?? DAY_MINUTES);
    const until = Math.max(shift.from, Math.floor(Math.min(shift.until, byRest, byOvertime)));
    if (until >= shift.until) return shift;
    return { ...shift, until, regularUntil: Math.min(until, shift.regularUntil), uncut: { until: shift.until, by: byRest < byOvertime ? 'rest' : 'overtime' } };
  });
}

/** Days of one week have the same number; weeks begin on Monday. */
export function weekNumbers(firstDay: Day, days: number): number[] {
  const offset = weekday(firstDay) - 1;
  return Array.from({ length: days }, (_, at) => Math.floor((at + offset) / 7));
}

function overtimeByDay(
  { overtimeHoursAWeek = null }: PersonFacts,
  works: (day: Day) => boolean,
  firstDay: Day,
  days: number,
  needed: ReadonlyMap<number, number>,
  before: number,
): number[] | null {
  if (overtimeHoursAWeek === null) return null;
  const weeks = weekNumbers(firstDay, days);
  const mondayOf = (at: number) => dayPlus(firstDay, at - (weekday(dayPlus(firstDay, at)) - 1));
  const left = new Map([[0, Math.max(0, overtimeHoursAWeek * HOUR - before)]]);
  const own = weeks.map((week, at) => {
    const rest = left.get(week) ?? overtimeHoursAWeek * HOUR;
    const takes = Math.min(rest, needed.get(at) ?? 0);
    left.set(week, rest - takes);
    return takes;
  });
  return weeks.map((week, at) => {
    const monday = mondayOf(at);
    const worked = Array.from({ length: 7 }, (_, day) => dayPlus(monday, day)).filter((day) => day >= firstDay && works(day)).length;
    return (own[at] ?? 0) + (left.get(week) ?? 0) / Math.max(1, worked);
  });
}
