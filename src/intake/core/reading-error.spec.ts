import { describe, expect, test } from '@jest/globals';
import { readingError } from './reading-error.js';

describe('reading error', () => {
  test('is half the smallest division, in the stored unit', () => {
    expect(readingError(0.2, '1.4', 'bar')).toBe(10);
    expect(readingError(2, '68', '[degF]')).toBeCloseTo(5 / 9, 12);
  });

  test('is half the last digit that was written where the division is not known', () => {
    expect(readingError(null, '12,50', 'Cel')).toBe(0.005);
    expect(readingError(null, '12.5', 'Cel')).toBe(0.05);
    expect(readingError(null, '1.2e3', 'm3')).toBe(50);
  });

  test('a zero that was written makes it finer: who wrote 2.30 saw hundredths', () => {
    expect(readingError(null, '2.30', 'kPa')).toBeLessThan(readingError(null, '2.3', 'kPa'));
  });
});
