export type DecimalMark = '.' | ',';

export type NumberRead =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'missing' }
  | { readonly kind: 'not-a-number'; readonly reason: string };

const PLAIN = /^[+-]?(?:\d+(?:\.\d*)?|\.\d+)(?:[eE][+-]?\d{1,3})?$/;
const MISSING: NumberRead = { kind: 'missing' };
const NOT_A_NUMBER: NumberRead = { kind: 'not-a-number', reason: 'is not a number' };
const TOO_LARGE: NumberRead = { kind: 'not-a-number', reason: 'is too large for a number' };

/**
 * A number as a log file or a person writes it, with the decimal mark that the profile names. Empty text, and the texts that the profile names
 * (`n/a`, `-9999`), are missing values and no fault.
 *
 * Marks of thousands are refused and not guessed: `1.234` is a thousand or one and a quarter, and only one of them is right.
 *
 * @example readNumber('12,5', ',', []) // => { "kind": "number", "value": 12.5 }
 * @example readNumber('n/a', '.', ['n/a']) // => { "kind": "missing" }
 * @example readNumber('1.234', ',', []).kind // => "not-a-number"
 */
export function readNumber(text: string, decimal: DecimalMark, missingValues: readonly string[]): NumberRead {
  const trimmed = text.trim();
  if (trimmed === '' || missingValues.includes(trimmed)) return MISSING;
  if (decimal === ',') {
    if (trimmed.includes('.')) return { kind: 'not-a-number', reason: 'has a point, but the profile says that the decimal mark is a comma' };
    return toNumber(trimmed.replace(',', '.'));
  }
  if (trimmed.includes(',')) return { kind: 'not-a-number', reason: 'has a comma, but the profile says that the decimal mark is a point' };
  return toNumber(trimmed);
}

function toNumber(text: string): NumberRead {
  if (!PLAIN.test(text)) return NOT_A_NUMBER;
  const value = Number(text);
  return Number.isFinite(value) ? { kind: 'number', value } : TOO_LARGE;
}
