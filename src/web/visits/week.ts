import { addDays } from '../site-time.js';

/** The Monday of the week of a day, both as YYYY-MM-DD. */
export function mondayOf(day: string): string {
  const weekday = new Date(`${day}T00:00:00Z`).getUTCDay();
  return addDays(day, -((weekday + 6) % 7));
}

/** Monday to Sunday. */
export const daysOfWeek = (monday: string): string[] => [0, 1, 2, 3, 4, 5, 6].map((after) => addDays(monday, after));

/** The week that an address asks for: that of `asked` where it is a day, otherwise that of `today`. */
export function weekAsked(asked: string | undefined, today: string): string {
  const isDay = asked !== undefined && /^\d{4}-\d\d-\d\d$/.test(asked) && new Date(`${asked}T00:00:00Z`).toJSON()?.startsWith(asked);
  return mondayOf(isDay ? asked : today);
}

/** When a visit ends, with the break that lies within it. */
export const endOfVisit = ({
  startTime,
  minutes,
  breakMinutes,
}: {
  readonly startTime: string;
  readonly minutes: number;
  readonly breakMinutes: number;
}): string => timeAfter(startTime, minutes + breakMinutes);

/** The clock time so many minutes after another, for reading beside it: past midnight it begins again. */
export function timeAfter(start: string, minutes: number): string {
  const [hours = 0, rest = 0] = start.split(':').map(Number);
  const end = hours * 60 + rest + minutes;
  return `${String(Math.floor(end / 60) % 24).padStart(2, '0')}:${String(end % 60).padStart(2, '0')}`;
}
