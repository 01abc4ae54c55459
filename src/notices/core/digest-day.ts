import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns/format';
import type { Day } from '../../shared/day.js';

export interface DigestWish {
  readonly digest: 'off' | 'daily' | 'weekly';
  /** Of the person's own day */
  readonly hour: number;
  readonly timeZone: string;
}

/** Of a worker that was away for longer a morning's message would come in the afternoon. */
const CATCH_UP_HOURS = 3;
const MONDAY = 1;

/**
 * The day of a person for which a digest is to be made now, in their own zone; null: none. It is made from the hour that they chose on, within
 * three hours; a weekly one on Mondays. An hour that the clock leaves out is made up for in the next.
 *
 * @param lastDay the day for which the last one was made
 * @example digestDayOf({ digest: 'daily', hour: 7, timeZone: 'Europe/Madrid' }, null, new Date('2026-11-25T06:10:00Z')) // => "2026-11-25"
 * @example digestDayOf({ digest: 'daily', hour: 7, timeZone: 'Europe/Madrid' }, '2026-11-25', new Date('2026-11-25T06:10:00Z')) // => null
 */
export function digestDayOf({ digest, hour, timeZone }: DigestWish, lastDay: Day | null, now: Date): Day | null {
  if (digest === 'off') return null;
  const local = new TZDate(now, timeZone);
  const day = format(local, 'yyyy-MM-dd');
  const isHour = local.getHours() >= hour && local.getHours() < hour + CATCH_UP_HOURS;
  if (!isHour || (digest === 'weekly' && local.getDay() !== MONDAY) || (lastDay !== null && lastDay >= day)) return null;
  return day;
}
