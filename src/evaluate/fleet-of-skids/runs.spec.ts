import { describe, expect, test } from '@jest/globals';
import { Draws } from '../installed-base/draws.js';
import { drawRuns, spentByDay } from './runs.js';

describe('the runs of a drawn skid', () => {
  const loads = Array.from({ length: 400 }, (_, day) => 10 + (day % 3));
  const runs = drawRuns(loads, { usualLoad: 500, scatter: 0.2, renewedAt: () => 1 }, new Draws(3));

  test('follow each other without a gap, the last one open', () => {
    expect(runs.length).toBeGreaterThan(4);
    expect(runs.slice(1).map(({ from }) => from)).toEqual(runs.slice(0, -1).map(({ renewed }) => renewed));
    expect(runs.at(-1)?.renewed).toBeNull();
  });

  test('meet their limit on the day on which their load is spent', () => {
    const spent = spentByDay(runs, loads);
    for (const [at, { met, from, renewed }] of runs.entries()) {
      if (met === null || renewed === null) continue;
      const day = Math.floor(met);
      expect(spent[day]?.run).toBe(at);
      expect(spent[day]?.share ?? 0).toBeGreaterThanOrEqual(1);
      if (day > from) expect(spent[day - 1]?.share ?? 2).toBeLessThan(1);
    }
  });
});
