import { describe, expect, test } from '@jest/globals';
import { figure } from '../../shared/figure.js';
import { pathDays } from './path-days.js';
import { whenInWords } from './when-in-words.js';

const TODAY = '2025-11-25';

describe('a forecast in words', () => {
  test.each([
    [10, 24, 'is likely reached between 5 and 19 Dec'],
    [3.4, 12.2, 'is likely reached between 28 Nov and 8 Dec'],
    [30, 60, 'is likely reached between 25 Dec and 24 Jan 2026'],
    [4, 4, 'is likely reached on 29 Nov'],
    [40, null, 'is unlikely to be reached before 4 Jan 2026 and may hold for more than two years'],
    [null, null, 'is unlikely to be reached within two years'],
  ])('%p to %p days: %s', (p10Days, p90Days, words) => {
    expect(whenInWords({ p10Days, p90Days }, TODAY)).toBe(words);
  });

  test('numbers have three digits that count', () => {
    expect([0.04171, 7, 35.24, 151.6, 9812].map(figure)).toEqual(['0.0417', '7', '35.2', '152', '9,810']);
  });
});

describe('the days at which a forecast is drawn', () => {
  test.each([
    [10, 20, 22],
    [300, 600, 660],
    [500, null, 730],
    [null, null, 730],
  ])('middle %p, late %p: up to day %d', (p50Days, p90Days, last) => {
    const days = pathDays({ p50Days, p90Days });
    expect(days[0]).toBe(0);
    expect(days.at(-1)).toBe(last);
    expect(days.length).toBeGreaterThan(7);
    expect(days.length).toBeLessThanOrEqual(25);
    expect(new Set(days).size).toBe(days.length);
  });
});
