import { TZDate } from '@date-fns/tz';
import { format } from 'date-fns/format';
import type { Day } from '../../shared/day.js';

/** When people are at a site, in ms since 1970; the end is no longer part of it. */
export interface Span {
  readonly fromMs: number;
  readonly toMs: number;
}

interface VisitToSpan {
  readonly onDay: Day;
  readonly startTime: string;
  readonly minutes: number;
  /** Left out: none */
  readonly breakMinutes?: number;
  readonly timeZone: string;
}

/**
 * When a visit begins and ends: its day and time are those of the site (IANA name), its minutes pass as minutes do, and those of a break in it. A time that the clock leaves
 * out when summer time begins is taken as so much later; of a time that comes twice when it ends, the first is meant.
 *
 * Source: IANA time zone database, as the runtime carries it.
 *
 * @example visitSpan({ onDay: '2026-12-01', startTime: '08:00', minutes: 90, timeZone: 'Europe/Madrid' }).fromMs // => 1796108400000
 */
export function visitSpan({ onDay, startTime, minutes, breakMinutes = 0, timeZone }: VisitToSpan): Span {
  const [year = 0, month = 1, day = 1] = onDay.split('-').map(Number);
  const [hour = 0, minute = 0] = startTime.split(':').map(Number);
  const fromMs = new TZDate(year, month - 1, day, hour, minute, timeZone).getTime();
  return { fromMs, toMs: fromMs + (minutes + breakMinutes) * 60_000 };
}

/**
 * Whether two spans have a moment in common: one that begins when the other ends has none.
 *
 * @example overlap({ fromMs: 0, toMs: 10 }, { fromMs: 10, toMs: 20 }) // => false
 */
export const overlap = (one: Span, other: Span): boolean => one.fromMs < other.toMs && other.fromMs < one.toMs;

/**
 * The local day and time of a moment, as in a sentence.
 *
 * @example localTime(1796108400000, 'Europe/Madrid') // => { "day": "2026-12-01", "time": "08:00" }
 */
export function localTime(ms: number, timeZone: string): { day: Day; time: string } {
  const local = new TZDate(ms, timeZone);
  return { day: format(local, 'yyyy-MM-dd'), time: format(local, 'HH:mm') };
}
