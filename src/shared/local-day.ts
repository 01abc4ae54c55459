import type { Day } from './day.js';
import { wallClockMs } from './wall-clock.js';

/**
 * The date at the site.
 *
 * @example localDay(new Date('2026-11-21T23:30:00Z'), 'Europe/Paris') // => "2026-11-22"
 */
export const localDay = (at: Date, timeZone: string): Day => new Date(wallClockMs(at.getTime(), timeZone)).toISOString().slice(0, 10);
