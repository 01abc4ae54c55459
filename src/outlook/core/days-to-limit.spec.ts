import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { daysUntil, limitForecast, metWithin } from './days-to-limit.js';
import { DAYS_AHEAD } from './horizon.js';

/** The limit lies somewhere between a and b of load, all places alike. */
const between = (a: number, b: number) => (load: number) => Math.min(1, Math.max(0, (load - a) / (b - a)));
const steady = { mean: 10, sd: 0, days: 30 };

const remaining = fc
  .tuple(fc.double({ min: 0, max: 20_000, noNaN: true }), fc.double({ min: 1, max: 20_000, noNaN: true }))
  .map(([from, width]) => between(from, from + width));
const dailyLoad = fc.record({
  mean: fc.double({ min: 0.5, max: 500, noNaN: true }),
  sd: fc.double({ min: 0, max: 300, noNaN: true }),
  days: fc.integer({ min: 1, max: 60 }),
});

describe('from load to days', () => {
  test('with the same load every day it only divides', () => {
    const forecast = limitForecast(metWithin(between(100, 1100), steady));
    expect(forecast.p10Days).toBeCloseTo(20, 2);
    expect(forecast.p50Days).toBeCloseTo(60, 2);
    expect(forecast.p90Days).toBeCloseTo(100, 2);
    expect(forecast.metByDay[DAYS_AHEAD.indexOf(60)]).toBeCloseTo(0.5, 9);
    expect(forecast.shareBeyond).toBe(0);
  });

  test('days that differ widen the span on both sides', () => {
    const exact = limitForecast(metWithin(between(590, 610), steady));
    const wide = limitForecast(metWithin(between(590, 610), { mean: 10, sd: 4, days: 30 }));
    expect(wide.p10Days ?? NaN).toBeLessThan((exact.p10Days ?? NaN) - 3);
    expect(wide.p90Days ?? NaN).toBeGreaterThan((exact.p90Days ?? NaN) + 3);
  });

  test('what lies beyond two years has no day', () => {
    expect(limitForecast(metWithin(between(5_000, 10_000), steady))).toMatchObject({ p50Days: null, p90Days: null });
    expect(limitForecast(metWithin(between(8_000, 10_000), steady))).toMatchObject({ p10Days: null, shareBeyond: 1 });
    expect(daysUntil(() => 0, 0.5, 730)).toBeNull();
  });

  test('probabilities lie between 0 and 1 and never fall, and the quantiles agree with them', () => {
    fc.assert(
      fc.property(remaining, dailyLoad, (metByLoad, load) => {
        const met = metWithin(metByLoad, load);
        const { metByDay, shareBeyond, p10Days, p50Days, p90Days } = limitForecast(met);
        for (const [i, share] of metByDay.entries()) expect(share).toBeGreaterThanOrEqual((metByDay[i - 1] ?? 0) - 1e-12);
        expect(shareBeyond).toBeCloseTo(1 - (metByDay.at(-1) ?? NaN), 12);
        for (const [probability, days] of [
          [0.1, p10Days],
          [0.5, p50Days],
          [0.9, p90Days],
        ] as const) {
          if (days === null) expect(metByDay.at(-1)).toBeLessThan(probability);
          else for (const [i, ahead] of DAYS_AHEAD.entries()) expect((metByDay[i] ?? NaN) >= probability).toBe(ahead >= days);
        }
      }),
      { numRuns: 60 },
    );
  });

  test('more load a day never makes it later', () => {
    fc.assert(
      fc.property(remaining, dailyLoad, fc.double({ min: 1, max: 3, noNaN: true }), (metByLoad, load, times) => {
        const now = limitForecast(metWithin(metByLoad, load)).metByDay;
        const more = limitForecast(metWithin(metByLoad, { ...load, mean: load.mean * times })).metByDay;
        for (const [i, share] of now.entries()) expect(more[i]).toBeGreaterThanOrEqual(share - 1e-12);
      }),
      { numRuns: 60 },
    );
  });
});
