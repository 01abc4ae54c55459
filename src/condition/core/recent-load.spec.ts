import { describe, expect, test } from '@jest/globals';
import { dayPlus } from '../../shared/day.js';
import { recentLoad } from './recent-load.js';

const record = (loads: (number | null)[]) => loads.map((filtrateM3, index) => ({ day: dayPlus('2026-03-01', index), filtrateM3 }));

describe('the recent load of a skid', () => {
  test('is the mean of four whole weeks; the last day, which is not whole, is left out', () => {
    expect(recentLoad(record([...Array.from({ length: 40 }, () => 200), 3]))).toEqual({ kind: 'recent-load', meanM3: 200, sdM3: 0, days: 28 });
  });

  test('counts days of standby as nothing filtered', () => {
    const days = record(Array.from({ length: 29 }, () => 100)).filter((_, index) => index % 7 !== 0 || index === 28 || index === 0);
    expect(recentLoad(days)).toMatchObject({ meanM3: (100 * 25) / 28 });
  });

  test('is not said before a week has passed', () => {
    expect(recentLoad(record([100, 100, 100]))).toEqual({ kind: 'too-little-data', have: 2, need: 7 });
    expect(recentLoad([])).toEqual({ kind: 'too-little-data', have: 0, need: 7 });
  });
});
