const THREE_DIGITS = new Intl.NumberFormat('en-GB', { maximumSignificantDigits: 3 });

/**
 * A number as it stands in a sentence: three digits that count, thousands apart.
 *
 * @example figure(9812.4) // => "9,810"
 * @example figure(35.24) // => "35.2"
 */
export function figure(value: number): string {
  return THREE_DIGITS.format(value);
}
