import { addMinutes } from 'date-fns/addMinutes';
import { subHours } from 'date-fns/subHours';

/** A mail server that starts again is back within minutes; one that is broken is mended within hours, and need not be asked often. */
const PAUSES_MIN = [1, 5, 15, 60] as const;
/** After two days a digest is stale, and a person who was not reached at once was reached another way. */
const GIVE_UP_AFTER_HOURS = 48;

/**
 * When a message that could not be sent is tried again, after so many tries: after 1, 5 and 15 minutes, then every hour.
 *
 * @example nextTry(1, new Date('2026-11-25T10:00:00Z')) // => "2026-11-25T10:01:00.000Z"
 * @example nextTry(9, new Date('2026-11-25T10:00:00Z')) // => "2026-11-25T11:00:00.000Z"
 */
export function nextTry(tries: number, failedAt: Date): Date {
  return addMinutes(failedAt, PAUSES_MIN[Math.max(tries, 1) - 1] ?? 60);
}

/**
 * Messages written before this moment are not tried any more: two days ago.
 *
 * @example tooOldBefore(new Date('2026-11-25T10:00:00Z')) // => "2026-11-23T10:00:00.000Z"
 */
export function tooOldBefore(now: Date): Date {
  return subHours(now, GIVE_UP_AFTER_HOURS);
}
