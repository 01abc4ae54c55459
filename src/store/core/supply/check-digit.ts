/**
 * Whether the last digit of a GS1 key is the one that the others ask for: weights 3, 1, 3 … from the right, the sum with it a multiple of ten.
 *
 * Source: GS1 General Specifications, check digit calculation.
 *
 * @example hasCheckDigit('02345673') // => true
 * @example hasCheckDigit('12345673') // => false
 */
export function hasCheckDigit(digits: string): boolean {
  if (!/^\d{2,}$/.test(digits)) return false;
  return Number(digits.at(-1)) === checkDigit(digits.slice(0, -1));
}

/**
 * The check digit of a key that lacks it.
 *
 * @example checkDigit('41600033610') // => 8
 */
export function checkDigit(digits: string): number {
  const sum = Array.from(digits)
    .reverse()
    .reduce((total, digit, at) => total + Number(digit) * (at % 2 === 0 ? 3 : 1), 0);
  return (10 - (sum % 10)) % 10;
}
