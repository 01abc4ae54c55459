import { TZDate } from '@date-fns/tz';
import type { Day } from '../../shared/day.js';

/**
 * The moment at which a visit begins: a day and a time on the clock of its site. A time that the clock shows twice is the first of the two;
 * one that it leaves out is as much later as the clock is put on.
 *
 * @example visitStart('2026-10-24', '09:00', 'Europe/Madrid') // => "2026-10-24T07:00:00.000Z"
 * @example visitStart('2026-10-26', '09:00', 'Europe/Madrid') // => "2026-10-26T08:00:00.000Z"
 */
export function visitStart(onDay: Day, startTime: string, timeZone: string): Date {
  const [year = 1970, month = 1, date = 1] = onDay.split('-').map(Number);
  const [hour = 0, minute = 0] = startTime.split(':').map(Number);
  return new Date(new TZDate(year, month - 1, date, hour, minute, timeZone).getTime());
}
