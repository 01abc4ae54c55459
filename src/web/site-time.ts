import { wallClockMs } from '../shared/wall-clock.js';

/** What a date and time field shows for a moment at the site: `2026-11-24T06:00`. */
export const toLocalField = (atMs: number, timeZone: string): string => new Date(wallClockMs(atMs, timeZone)).toISOString().slice(0, 16);

/**
 * The moment of what a date and time field holds, at the site; undefined when it holds none.
 * An hour that the clocks skip is read as the hour after; of an hour that comes twice, the first is meant.
 */
export function fromLocalField(text: string, timeZone: string): Date | undefined {
  const wanted = Date.parse(`${text}Z`);
  if (!/^\d{4}-\d\d-\d\dT\d\d:\d\d(:\d\d)?$/.test(text) || Number.isNaN(wanted)) return undefined;
  // The offset of a zone changes by no more than a day's worth: what it is a day before and a day after covers both sides of a change.
  const offsets = [-1, 1].map((side) => wallClockMs(wanted + side * 86_400_000, timeZone) - (wanted + side * 86_400_000));
  const moments = offsets.map((offset) => wanted - offset);
  const exact = moments.filter((at) => wallClockMs(at, timeZone) === wanted);
  return new Date(exact.length > 0 ? Math.min(...exact) : Math.max(...moments));
}

/** Today's date at the site. */
export const siteToday = (nowMs: number, timeZone: string): string => toLocalField(nowMs, timeZone).slice(0, 10);

/** So many whole days after a local date. */
export const addDays = (date: string, days: number): string => new Date(Date.parse(`${date}T00:00:00Z`) + days * 86_400_000).toISOString().slice(0, 10);
