import { UTCDate } from '@date-fns/utc';
import type { Day } from '../../../shared/day.js';

const HOUR = 60;

/** 1 Monday to 7 Sunday. */
export const weekday = (day: Day): number => new UTCDate(`${day}T00:00:00Z`).getDay() || 7;

/** Minutes after midnight of a time of day such as `08:30`. */
export function minutesOfDay(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour * HOUR + minute;
}
