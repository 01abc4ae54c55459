import { lastDayOfMonth } from 'date-fns/lastDayOfMonth';

/**
 * A day as GS1 writes it, YYMMDD. The century is the one that lies nearest to today: a year 51 or more ahead of it is of the century before,
 * one 50 or more behind of the next. Day 00 leaves the day open, and is taken for the last of the month. Null: no such day.
 *
 * Source: GS1 Barcode Syntax Dictionary; the last of the month from memory of the GS1 General Specifications.
 *
 * @example gs1Day('270200', 2026) // => "2027-02-28"
 * @example gs1Day('991231', 2026) // => "1999-12-31"
 */
export function gs1Day(text: string, thisYear: number): string | null {
  const [, yy, mm, dd] = /^(\d\d)(\d\d)(\d\d)$/.exec(text) ?? [];
  if (yy === undefined || mm === undefined || dd === undefined) return null;
  const century = Math.floor(thisYear / 100) * 100;
  const ahead = Number(yy) - (thisYear % 100);
  const year = century + Number(yy) + (ahead >= 51 ? -100 : ahead <= -50 ? 100 : 0);
  const month = Number(mm);
  if (month < 1 || month > 12) return null;
  const last = lastDayOfMonth(new Date(year, month - 1, 1)).getDate();
  const day = dd === '00' ? last : Number(dd);
  return day > last ? null : `${year}-${mm}-${String(day).padStart(2, '0')}`;
}
