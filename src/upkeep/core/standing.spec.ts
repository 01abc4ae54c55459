import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../shared/day.js';
import { standingRank } from '../../shared/standing.js';
import { standingOf, worstStanding } from './standing.js';

const today = '2025-11-25';
const at = (days: number, graceDays: number | null = null) =>
  standingOf({ dueOn: dayPlus(today, days), latestOn: graceDays === null ? null : dayPlus(today, days + graceDays), today, planningDays: 14, watchDays: 60 });

describe('the standing of a need', () => {
  test.each([
    [-1, 'overdue'],
    [0, 'due'],
    [14, 'due'],
    [15, 'watch'],
    [60, 'watch'],
    [61, 'steady'],
  ])('%d days ahead: %s', (days, standing) => {
    expect(at(days)).toBe(standing);
  });

  test('is due and not overdue within its grace', () => {
    expect(at(-3, 5)).toBe('due');
    expect(at(-6, 5)).toBe('overdue');
  });

  test('is not known without a day', () => {
    expect(standingOf({ dueOn: null, latestOn: null, today })).toBe('no-data');
  });

  test('never grows less urgent as days pass', () => {
    fc.assert(
      fc.property(fc.integer({ min: -100, max: 200 }), fc.integer({ min: 0, max: 30 }), (days, grace) => {
        expect(standingRank(at(days - 1, grace))).toBeLessThanOrEqual(standingRank(at(days, grace)));
      }),
      { numRuns: 60 },
    );
  });

  test('a whole stands as its most urgent need, and steady without any', () => {
    expect(worstStanding(['steady', 'watch', 'overdue', 'due'])).toBe('overdue');
    expect(worstStanding(['watch', 'no-data'])).toBe('no-data');
    expect(worstStanding([])).toBe('steady');
  });
});
