import { describe, expect, test } from '@jest/globals';
import { cumsum } from 'd3-array';
import fc from 'fast-check';
import { averageDailyUse } from './daily-use.js';

const window = { windowDays: 60, leastDays: 7, mostPerDay: 24 };
const point = (day: number, life: number) => ({ at: new Date(Date.UTC(2025, 0, 1 + day)), life });
const perDay = (points: ReturnType<typeof point>[], change: Partial<typeof window> = {}) => {
  const use = averageDailyUse(points, { ...window, ...change });
  return use.kind === 'daily-use' ? use.perDay : use;
};

describe('average daily use', () => {
  test('is what was counted over the days of a short record', () => {
    expect(averageDailyUse([point(0, 0), point(10, 170), point(20, 350)], window)).toEqual({ kind: 'daily-use', perDay: 17.5, days: 20 });
  });

  test('looks at the recent window only, so that a new duty shows', () => {
    const record = Array.from({ length: 13 }, (_, n) => point(n * 10, n <= 9 ? n * 200 : 1800 + (n - 9) * 50));
    expect(perDay(record, { windowDays: 30 })).toBe(5);
    expect(perDay(record, { windowDays: 60 })).toBe(12.5);
  });

  test('cuts between two readings where the window begins', () => {
    expect(perDay([point(0, 0), point(100, 1000), point(110, 1000)])).toBeCloseTo((1000 - 500) / 60, 9);
  });

  test('is 0 of a machine that stood still, and never over 24 hours a day', () => {
    expect(perDay([point(0, 40), point(30, 40)])).toBe(0);
    expect(perDay([point(0, 0), point(10, 250)])).toBe(24);
    expect(averageDailyUse([point(0, 0), point(10, 250)], { ...window, mostPerDay: null })).toMatchObject({ perDay: 25 });
  });

  test('needs a week', () => {
    expect(perDay([])).toEqual({ kind: 'too-little-data', have: 0, need: 7 });
    expect(perDay([point(0, 0)])).toEqual({ kind: 'too-little-data', have: 0, need: 7 });
    expect(perDay([point(0, 0), point(6, 100)])).toEqual({ kind: 'too-little-data', have: 6, need: 7 });
  });

  test('of an even count is its rate, whatever the window', () => {
    const gaps = fc.array(fc.integer({ min: 1, max: 40 }), { minLength: 8, maxLength: 20 });
    fc.assert(
      fc.property(gaps, fc.double({ min: 0, max: 24, noNaN: true }), fc.integer({ min: 30, max: 90 }), (gapsInDays, rate, windowDays) => {
        const points = [0, ...cumsum(gapsInDays)].map((day) => point(day, day * rate));
        expect(perDay(points, { windowDays })).toBeCloseTo(rate, 9);
      }),
      { numRuns: 40 },
    );
  });
});
