import { sharedWords } from './words.js';

const { locale } = sharedWords;
const DAY_MS = 86_400_000;
const formats = new Map<string, Intl.DateTimeFormat>();
const numbers = new Map<number, Intl.NumberFormat>();

/** Formats are costly to make and few: one for each zone and shape. Months have three letters, as in the sentences that the service writes. */
function dated(at: Date | number, key: string, options: Intl.DateTimeFormatOptions): string {
  const known = formats.get(key) ?? new Intl.DateTimeFormat(locale, options);
  formats.set(key, known);
  return known.format(at).replace('Sept', 'Sep');
}

/** A number with fixed decimals; an en dash for none. */
export function number(value: number | null | undefined, digits = 0): string {
  if (value === null || value === undefined) return sharedWords.none;
  const known = numbers.get(digits) ?? new Intl.NumberFormat(locale, { minimumFractionDigits: digits, maximumFractionDigits: digits });
  numbers.set(digits, known);
  return known.format(value).replace('-', '−');
}

/** A number with as many decimals as it has, as it was written down. */
export const written = (value: number): string => new Intl.NumberFormat(locale, { maximumFractionDigits: 4 }).format(value).replace('-', '−');

/** A local date such as `2026-11-29`, which has no zone to convert. */
export const day = (date: string | null): string =>
  date === null ? sharedWords.none : dated(new Date(`${date}T00:00:00Z`), 'day', { day: 'numeric', month: 'short', year: 'numeric', timeZone: 'UTC' });

const MOMENT = { day: 'numeric', month: 'short', year: 'numeric', hour: '2-digit', minute: '2-digit', hourCycle: 'h23' } as const;

/** A moment as the clocks at the site show it. */
export const moment = (at: string | Date | null, timeZone: string): string =>
  at === null ? sharedWords.none : dated(new Date(at), `moment ${timeZone}`, { ...MOMENT, timeZone });

/** A date under the axis of a chart: days while few are shown, months for longer. */
export const axisDate = (ms: number, spanMs: number): string =>
  spanMs > 200 * DAY_MS
    ? dated(ms, 'months', { month: 'short', year: '2-digit', timeZone: 'UTC' })
    : dated(ms, 'days', { day: 'numeric', month: 'short', timeZone: 'UTC' });

/** A moment that is counted as the wall clock of the site, as charts do. */
export const wallDay = (wallMs: number): string => day(new Date(wallMs).toISOString().slice(0, 10));

/** "2 h 15 min", for the time that work takes. */
export function minutes(value: number): string {
  const [hours, rest] = [Math.floor(value / 60), Math.round(value % 60)];
  return [hours > 0 ? `${number(hours)} h` : '', rest > 0 || hours === 0 ? `${number(rest)} min` : ''].filter(Boolean).join(' ');
}
