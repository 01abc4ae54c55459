import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayInWords, dayPlus, daysBetween } from './day.js';

const day = fc.integer({ min: 0, max: 40_000 }).map((days) => dayPlus('1970-01-01', days));

describe('calendar days', () => {
  test('know leap years', () => {
    expect(dayPlus('2024-02-28', 1)).toBe('2024-02-29');
    expect(dayPlus('2025-02-28', 1)).toBe('2025-03-01');
    expect(daysBetween('2024-01-01', '2025-01-01')).toBe(366);
  });

  test('are counted without the hours that a clock change takes or gives', () => {
    expect(daysBetween('2025-03-29', '2025-03-31')).toBe(2);
    expect(daysBetween('2025-10-25', '2025-10-27')).toBe(2);
  });

  test('are as far apart as what was added', () => {
    fc.assert(
      fc.property(day, fc.integer({ min: -900, max: 900 }), (from, days) => {
        expect(daysBetween(from, dayPlus(from, days))).toBe(days);
      }),
      { numRuns: 60 },
    );
  });

  test('carry their year in a sentence only where it is another one', () => {
    expect(dayInWords('2025-09-30', '2025-01-01')).toBe('30 Sep');
    expect(dayInWords('2026-09-30', '2025-01-01')).toBe('30 Sep 2026');
  });
});
