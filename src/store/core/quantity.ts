/** A quantity of stock in millionths of its unit, so that sums are exact. */
export type Millionths = bigint;

const QUANTITY = /^(-?)(\d{1,12})(?:\.(\d{1,6}))?$/;

/**
 * Reads a quantity as the API and the database write it: at most twelve digits before the point and six behind it. Null where it is none.
 *
 * @example String(millionthsOf('2.5')) // => "2500000"
 * @example millionthsOf('1e3') // => null
 */
export function millionthsOf(text: string): Millionths | null {
  const [, sign, whole, part = ''] = QUANTITY.exec(text) ?? [];
  if (whole === undefined) return null;
  const size = BigInt(whole) * 1_000_000n + BigInt(part.padEnd(6, '0'));
  return sign === '-' ? -size : size;
}

/**
 * Writes a quantity without zeros that say nothing.
 *
 * @example quantityText(2500000n) // => "2.5"
 * @example quantityText(-1000000n) // => "-1"
 */
export function quantityText(millionths: Millionths): string {
  const size = millionths < 0n ? -millionths : millionths;
  const part = String(size % 1_000_000n)
    .padStart(6, '0')
    .replace(/0+$/, '');
  return `${millionths < 0n ? '-' : ''}${size / 1_000_000n}${part === '' ? '' : `.${part}`}`;
}
