import { TZDate } from '@date-fns/tz';
import { UTCDate } from '@date-fns/utc';
import { format } from 'date-fns/format';
import type { Day } from '../../shared/day.js';

/**
 * The day of the week of a day.
 *
 * @example weekdayOf('2026-11-25') // => "Wednesday"
 */
export function weekdayOf(day: Day): string {
  return format(new UTCDate(`${day}T00:00:00Z`), 'EEEE');
}

/**
 * A moment as the clock of a place shows it.
 *
 * @example whenAt(new Date('2026-11-25T10:05:00Z'), 'Europe/Madrid') // => "25 Nov 2026, 11:05"
 */
export function whenAt(at: Date, timeZone: string): string {
  return format(new TZDate(at, timeZone), 'd MMM yyyy, HH:mm');
}
