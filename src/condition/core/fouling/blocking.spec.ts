import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { dayPlus } from '../../../shared/day.js';
import { BLOCKING_LAWS, type BlockingLaw, ratioAfter, straightened } from './blocking-laws.js';
import { blockingReading } from './blocking-reading.js';
import type { FoulingDay } from './resistance-parts.js';

describe('blocking laws at constant flux', () => {
  // Worked by hand from the integrals of dP/dV = k P^n (Hermia 1982, n = 2, 3/2, 1, 0): the pressure has risen by a quarter after 10,080 L/m2, and rises to 1/0.7 of what it was.
  test.each([
    ['complete', 1.9841e-5, 15_120],
    ['standard', 2.0947e-5, 15_596],
    ['intermediate', 2.2137e-5, 16_112],
    ['cake', 2.4802e-5, 17_280],
  ] as const)('%s: constant %d m2/L, limit after %d L/m2', (law, constant, volume) => {
    const k = straightened(law, 1.25) / 10_080;
    expect(k).toBeCloseTo(constant, 9);
    expect(Math.round(straightened(law, 1 / 0.7) / k)).toBe(volume);
    expect(ratioAfter(law, k * volume)).toBeCloseTo(1 / 0.7, 4);
  });

  test('undo each other', () => {
    fc.assert(
      fc.property(fc.constantFrom(...BLOCKING_LAWS), fc.double({ min: 0.5, max: 3, noNaN: true }), (law, ratio) => {
        expect(ratioAfter(law, straightened(law, ratio))).toBeCloseTo(ratio, 9);
      }),
      { numRuns: 50 },
    );
  });

  test('close the membrane for good where the pores are closed one after the other', () => {
    expect(ratioAfter('complete', 1)).toBe(Number.POSITIVE_INFINITY);
    expect(ratioAfter('cake', 1)).toBe(2);
  });
});

describe('the reading of a run between cleans', () => {
  /** Days at 1,440 L/m2 each on which the pressure follows a law exactly, from 250 L/m2 h bar. */
  const followed = (law: BlockingLaw, perDay: number, days: number): FoulingDay[] =>
    Array.from({ length: days }, (_, at) => {
      const lmhBar = 250 / ratioAfter(law, at * perDay);
      return { day: dayPlus('2026-03-01', at), startLmhBar: lmhBar, meanLmhBar: lmhBar, loadM3PerM2: 1.44 };
    });

  test.each(BLOCKING_LAWS)('finds %s blocking again, with the days that are left by it', (law) => {
    const reading = blockingReading(followed(law, 0.012, 25), [], 250 * 0.6);
    if (reading.kind !== 'reading') throw new Error(reading.kind);
    expect(reading).toMatchObject({ told: true, days: 25, fromDay: '2026-03-01' });
    expect(reading.fits[0]).toMatchObject({ law, scatter: expect.closeTo(0, 9) });
    expect((reading.fits[0]?.toLimitLPerM2 ?? 0) / 1440).toBeCloseTo(straightened(law, 1 / 0.6) / 0.012 - 24, 6);
  });

  test('tells none while the pressure has hardly risen, and then laws still agree on the days left within a fifth', () => {
    const reading = blockingReading(followed('intermediate', 0.003, 20), [], 225);
    if (reading.kind !== 'reading') throw new Error(reading.kind);
    expect(reading.told).toBe(false);
    const left = reading.fits.map(({ toLimitLPerM2 }) => toLimitLPerM2 ?? 0);
    expect(Math.max(...left) / Math.min(...left)).toBeLessThan(1.2);
  });

  test('looks at days since the latest recovery clean alone, through maintenance cleans, and says so where they are too few', () => {
    const days = followed('cake', 0.01, 25);
    expect(blockingReading(days, [{ kind: 'CEB', day: '2026-03-18' }], null)).toMatchObject({ kind: 'reading', days: 25 });
    expect(blockingReading(days, [{ kind: 'CIP', day: '2026-03-18' }], null)).toEqual({ kind: 'too-little-data', have: 7, need: 10 });
  });

  test('gives no days to the limit where the pressure falls or no limit is known', () => {
    const falls = blockingReading(followed('cake', -0.004, 20), [], 150);
    const unknown = blockingReading(followed('cake', 0.01, 20), [], null);
    for (const reading of [falls, unknown]) {
      if (reading.kind !== 'reading') throw new Error(reading.kind);
      expect(reading.fits.map(({ toLimitLPerM2 }) => toLimitLPerM2)).toEqual([null, null, null, null]);
    }
  });
});
