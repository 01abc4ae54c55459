import { TZDate } from '@date-fns/tz';

const DAY = /^(\d{4})-(\d{2})-(\d{2})$/;
const WITH_OFFSET = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:\d{2})$/;
const FIRST_YEAR = 1900;

/**
 * The moment of an entry in an old record: ISO 8601 with its offset, or a day alone, which is taken at noon at the site so that it stays that day wherever it is read.
 * `null` where the text is neither, or no day of a calendar.
 *
 * @example momentAtSite('2025-06-11', 'Europe/Madrid') // => "2025-06-11T10:00:00.000Z"
 * @example momentAtSite('2025-06-11T08:00:00+02:00', 'Etc/UTC') // => "2025-06-11T06:00:00.000Z"
 * @example momentAtSite('2025-02-30', 'Etc/UTC') // => null
 */
export function momentAtSite(text: string, timeZone: string): Date | null {
  const [, year, month, day] = DAY.exec(text.slice(0, 10)) ?? [];
  const noon = new Date(Date.UTC(Number(year), Number(month) - 1, Number(day), 12));
  if (year === undefined || Number(year) < FIRST_YEAR || Number.isNaN(noon.getTime()) || !noon.toISOString().startsWith(text.slice(0, 10))) return null;
  if (text.length === 10) return new Date(new TZDate(Number(year), Number(month) - 1, Number(day), 12, timeZone).getTime());
  const moment = new Date(text);
  return WITH_OFFSET.test(text) && !Number.isNaN(moment.getTime()) ? moment : null;
}
