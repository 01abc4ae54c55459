import { hasCheckDigit } from './check-digit.js';
import { gs1Day } from './gs1-day.js';
import { fieldAt, type Gs1Field } from './gs1-fields.js';

/** What a scanner has read. `code` is what an item is known by: a GTIN with 14 digits, or the text itself. */
export type Scan =
  | {
      readonly kind: 'scan';
      readonly code: string | null;
      readonly lot: string | null;
      readonly serial: string | null;
      readonly expiresOn: string | null;
      readonly bestBefore: string | null;
      readonly count: number | null;
    }
  | { readonly kind: 'unreadable'; readonly why: string };

/** Between fields that vary in length; scanners send it as the character 29. */
const SEPARATOR = '\u001d';
/** What scanners may send before GS1 data: Code 128, DataMatrix, QR and DataBar. */
const SYMBOLOGY = /^\](C1|d2|Q3|e0)/;

type Found = ReadonlyMap<Gs1Field['name'], string>;

/**
 * Reads a scanned text: a GS1 element string, bare or with its identifiers in parentheses, a GTIN alone, or another code as it is.
 *
 * Source: GS1 General Specifications, element strings.
 *
 * @example scanOf('(01)00000002345673(17)271231(10)A7', 2026).expiresOn // => "2027-12-31"
 * @example scanOf('416000336108', 2026).code // => "00416000336108"
 * @example scanOf('12345673', 2026).why // => "the check digit of 12345673 does not fit: scan it again, or type it again"
 */
export function scanOf(text: string, thisYear: number): Scan {
  const read = text.trim();
  if (read === '') return unreadable('nothing was read');
  if (/^\((\d{2,4})\)/.test(read)) return fromFields(inParentheses(read), thisYear);
  if (SYMBOLOGY.test(read) || read.includes(SEPARATOR)) return fromFields(elements(read.replace(SYMBOLOGY, '')), thisYear);
  if (/^01\d{14}/.test(read) && hasCheckDigit(read.slice(2, 16))) return fromFields(elements(read), thisYear);
  if (!/^(\d{8}|\d{12,14})$/.test(read)) return scan(read, new Map(), thisYear);
  if (!hasCheckDigit(read)) return unreadable(`the check digit of ${read} does not fit: scan it again, or type it again`);
  return scan(read.padStart(14, '0'), new Map(), thisYear);
}

const unreadable = (why: string): Scan => ({ kind: 'unreadable', why });

/** `(01)…(10)…`: as it is printed below a code. */
function inParentheses(text: string): Found | string {
  const found = new Map<Gs1Field['name'], string>();
  for (const [, ai = '', value = ''] of text.matchAll(/\((\d{2,4})\)([^(]*)/g)) {
    const field = fieldAt(ai);
    if (field === null || field.ai !== ai) continue; // a field that tells nothing of the item
    const fault = faultOf(field, value);
    if (fault !== null) return fault;
    found.set(field.name, value);
  }
  return found;
}

function elements(text: string): Found | string {
  const found = new Map<Gs1Field['name'], string>();
  let rest = text;
  while (rest !== '') {
    if (rest.startsWith(SEPARATOR)) {
      rest = rest.slice(1);
      continue;
    }
    const field = fieldAt(rest);
    if (field === null) return `no field begins at "${rest.slice(0, 12)}": scan it again, or type the item’s code`;
    const after = rest.slice(field.ai.length);
    const end = field.varies ? after.indexOf(SEPARATOR) : field.length;
    const value = end === -1 ? after : after.slice(0, end);
    const fault = faultOf(field, value);
    if (fault !== null) return fault;
    found.set(field.name, value);
    rest = after.slice(value.length);
  }
  return found;
}

function faultOf({ ai, name, length, varies, digits }: Gs1Field, value: string): string | null {
  const right = varies ? value.length >= 1 && value.length <= length : value.length === length;
  if (!right) return `field (${ai}) has ${value.length} characters, and ${varies ? `1 to ${length} are right` : `${length} are right`}: scan it again`;
  if (digits && !/^\d+$/.test(value)) return `field (${ai}) holds "${value}", and digits alone are right: scan it again`;
  if ((name === 'gtin' || name === 'content') && !hasCheckDigit(value)) return `the check digit of ${value} does not fit: scan it again, or type it again`;
  return null;
}

function fromFields(found: Found | string, thisYear: number): Scan {
  if (typeof found === 'string') return unreadable(found);
  return scan(found.get('gtin') ?? found.get('content') ?? null, found, thisYear);
}

function scan(code: string | null, found: Found, thisYear: number): Scan {
  const days = (['expires', 'bestBefore'] as const).map((name) => {
    const written = found.get(name);
    return written === undefined ? { written, day: null } : { written, day: gs1Day(written, thisYear) };
  });
  const wrong = days.find(({ written, day }) => written !== undefined && day === null);
  if (wrong !== undefined) return unreadable(`"${wrong.written}" is no day (YYMMDD): type the expiry by hand`);
  const count = found.get('count');
  return {
    kind: 'scan',
    code,
    lot: found.get('lot') ?? null,
    serial: found.get('serial') ?? null,
    expiresOn: days[0]?.day ?? null,
    bestBefore: days[1]?.day ?? null,
    count: count === undefined ? null : Number(count),
  };
}
