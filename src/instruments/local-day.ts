import type { Day } from '../shared/day.js';
import { wallClockMs } from '../shared/wall-clock.js';

/** The date at the site. */
export const localDay = (at: Date, timeZone: string): Day => new Date(wallClockMs(at.getTime(), timeZone)).toISOString().slice(0, 10);
