import { UTCDate, utc } from '@date-fns/utc';
import { format as print } from 'date-fns/format';
import { parse } from 'date-fns/parse';

/** A time as written: a moment, or what a clock on the wall showed (milliseconds as if it ran in UTC). */
export type WrittenTime =
  | { readonly kind: 'moment'; readonly atMs: number }
  | { readonly kind: 'wall'; readonly wallMs: number }
  | { readonly kind: 'bad-time'; readonly reason: string };

export type TimeParser = (text: string) => WrittenTime;

const ISO = /^(\d{4})-(\d{2})-(\d{2})(?:[T ](\d{2}):(\d{2})(?::(\d{2})(?:[.,](\d{1,9}))?)?(Z|[+-]\d{2}(?::?\d{2})?)?)?$/;
const NUMBER = /^-?\d{1,17}(?:\.\d+)?$/;
const PLACES: Readonly<Record<string, { readonly digits: string; readonly field: number }>> = {
  yyyy: { digits: '\\d{4}', field: 0 },
  MM: { digits: '\\d{2}', field: 1 },
  M: { digits: '\\d{1,2}', field: 1 },
  dd: { digits: '\\d{2}', field: 2 },
  d: { digits: '\\d{1,2}', field: 2 },
  HH: { digits: '\\d{2}', field: 3 },
  H: { digits: '\\d{1,2}', field: 3 },
  mm: { digits: '\\d{2}', field: 4 },
  m: { digits: '\\d{1,2}', field: 4 },
  ss: { digits: '\\d{2}', field: 5 },
  s: { digits: '\\d{1,2}', field: 5 },
  SSS: { digits: '\\d{3}', field: 6 },
};
const bad = (reason: string): WrittenTime => ({ kind: 'bad-time', reason });

/**
 * A parser for one format: `iso` (ISO 8601, with or without offset), `unix s`, `unix ms`, or a pattern of date-fns such as `dd.MM.yyyy HH:mm:ss`.
 * Undefined when the pattern does not say year, month and day.
 * Patterns of digits alone become one regular expression, since a log has a million times of them; others go through date-fns.
 */
export function timeParser(format: string): TimeParser | undefined {
  if (format === 'iso') return parseIso;
  if (format === 'unix s') return (text) => parseUnix(text, 1000);
  if (format === 'unix ms') return (text) => parseUnix(text, 1);
  return digitParser(format) ?? libraryParser(format);
}

/** Year, month, day, hour, minute, second, millisecond as one wall time, or why no calendar has it. */
function wallTime(fields: readonly number[]): WrittenTime {
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0, milli = 0] = fields;
  if (month < 1 || month > 12) return bad('has no such month');
  const wallMs = Date.UTC(year, month - 1, day, hour, minute, second, milli);
  if (day < 1 || new Date(Date.UTC(year, month - 1, day)).getUTCDate() !== day) return bad('has a day that its month does not have');
  if (hour > 23 || minute > 59 || second > 59) return bad('has a time of day that no clock shows');
  return { kind: 'wall', wallMs };
}

function parseIso(text: string): WrittenTime {
  const match = ISO.exec(text.trim());
  if (match === null) return bad('is not a time in ISO 8601, such as 2026-05-01T13:45:00');
  const [, year, month, day, hour = 0, minute = 0, second = 0, fraction, offset] = match;
  const milli = fraction === undefined ? 0 : Math.floor(Number(`0.${fraction}`) * 1000);
  const wall = wallTime([Number(year), Number(month), Number(day), Number(hour), Number(minute), Number(second), milli]);
  if (wall.kind !== 'wall' || offset === undefined) return wall;
  if (offset === 'Z') return { kind: 'moment', atMs: wall.wallMs };
  const minutes = Number(offset.slice(1, 3)) * 60 + Number(offset.slice(3).replace(':', '') || 0);
  return { kind: 'moment', atMs: wall.wallMs - (offset.startsWith('-') ? -minutes : minutes) * 60_000 };
}

function parseUnix(text: string, msPerUnit: number): WrittenTime {
  const trimmed = text.trim();
  return NUMBER.test(trimmed) ? { kind: 'moment', atMs: Math.round(Number(trimmed) * msPerUnit) } : bad('is not a count of seconds or milliseconds since 1970');
}

function digitParser(format: string): TimeParser | undefined {
  const fields: number[] = [];
  let source = '';
  for (const [piece, quoted, letters] of format.matchAll(/'([^']*)'|([A-Za-z])\2*|[^A-Za-z']/g)) {
    const place = letters === undefined ? undefined : PLACES[piece];
    if (letters !== undefined && place === undefined) return undefined;
    if (place !== undefined) fields.push(place.field);
    source += place === undefined ? (quoted ?? piece).replace(/[.*+?^${}()|[\]\\/]/g, '\\$&') : `(${place.digits})`;
  }
  if (![0, 1, 2].every((field) => fields.includes(field)) || new Set(fields).size !== fields.length) return undefined;
  const pattern = new RegExp(`^${source}$`);
  return (text) => {
    const match = pattern.exec(text.trim());
    if (match === null) return bad(`does not look like ${format}`);
    const values = [0, 0, 0, 0, 0, 0, 0];
    for (let i = 0; i < fields.length; i++) values[fields[i] as number] = Number(match[i + 1]);
    return wallTime(values);
  };
}

/** Month names, twelve-hour clocks, offsets. The year must be written with four digits: `26` is a day as well. */
function libraryParser(format: string): TimeParser | undefined {
  const letters = format.replaceAll(/'[^']*'/g, '');
  if (!/y{4}|u{4}/.test(letters) || !/[ML]/.test(letters) || !/d/.test(letters)) return undefined;
  const hasOffset = /[XxOz]/.test(letters);
  const read = (text: string) => parse(text.trim(), format, new UTCDate(2000, 0, 1), { in: utc }).getTime();
  try {
    if (Number.isNaN(read(print(new UTCDate(2000, 0, 1), format)))) return undefined;
  } catch {
    return undefined; // letters that the library does not know, or twice the same
  }
  return (text) => {
    const ms = read(text);
    if (Number.isNaN(ms)) return bad(`does not look like ${format}`);
    return hasOffset ? { kind: 'moment', atMs: ms } : { kind: 'wall', wallMs: ms };
  };
}
