import { UTCDate } from '@date-fns/utc';
import { format } from 'date-fns/format';

/** A calendar day as YYYY-MM-DD. It has no time zone: whoever made it knew the zone. */
export type Day = string;

const DAY_MS = 86_400_000;

const startMs = (day: Day): number => Date.parse(`${day}T00:00:00Z`);

/**
 * The day so many days after another; before it where the number is negative. Parts of a day are dropped.
 *
 * @example dayPlus('2024-02-28', 2) // => "2024-03-01"
 */
export function dayPlus(day: Day, days: number): Day {
  return new Date(startMs(day) + Math.trunc(days) * DAY_MS).toISOString().slice(0, 10);
}

/**
 * Days from one day to another; negative where the second is the earlier.
 *
 * @example daysBetween('2025-01-10', '2025-03-01') // => 50
 */
export function daysBetween(from: Day, to: Day): number {
  return (startMs(to) - startMs(from)) / DAY_MS;
}

/**
 * A day as people write it in a sentence; the year stands only where it is not the year of the day that the reader has in mind.
 *
 * @example dayInWords('2025-12-05', '2025-11-25') // => "5 Dec"
 * @example dayInWords('2026-01-05', '2025-11-25') // => "5 Jan 2026"
 */
export function dayInWords(day: Day, readOn: Day): string {
  return format(new UTCDate(startMs(day)), day.slice(0, 4) === readOn.slice(0, 4) ? 'd MMM' : 'd MMM yyyy');
}
