import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { millionthsOf, quantityText } from './quantity.js';

describe('a quantity', () => {
  test('comes back as it was written, without zeros that say nothing', () => {
    fc.assert(
      fc.property(fc.bigInt({ min: -(10n ** 18n) + 1n, max: 10n ** 18n - 1n }), (size) => {
        expect(millionthsOf(quantityText(size))).toBe(size);
      }),
      { numRuns: 200 },
    );
    expect(quantityText(millionthsOf('12.500000') ?? 0n)).toBe('12.5');
    expect(quantityText(millionthsOf('-0') ?? 1n)).toBe('0');
  });

  test('sums are exact where those of floating point are not', () => {
    expect(quantityText((millionthsOf('0.1') ?? 0n) + (millionthsOf('0.2') ?? 0n))).toBe('0.3');
  });

  test.each(['', '1,5', '.5', '5.', '1e3', '1.0000001', '1234567890123', ' 1', 'NaN'])('"%s" is none', (text) => {
    expect(millionthsOf(text)).toBeNull();
  });
});
