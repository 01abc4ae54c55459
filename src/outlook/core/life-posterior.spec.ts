import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { lifeLaw } from './life-law.js';
import { metByFurtherLoad } from './life-posterior.js';

const law = lifeLaw([9_000, 10_000, 11_000].map((load) => ({ load, ended: 'limit' as const })));

describe('what is known of the remaining load', () => {
  test('with nothing known there are even odds to run as long again', () => {
    expect(metByFurtherLoad(1_000, null, null)(1_000)).toBeCloseTo(0.5, 1);
  });

  test('earlier lives put the middle near theirs', () => {
    const met = metByFurtherLoad(2_000, law, null);
    expect(met(8_000)).toBeCloseTo(0.5, 1);
    expect(met(4_000)).toBeLessThan(0.1);
    expect(met(14_000)).toBeGreaterThan(0.9);
  });

  test('a part older than all earlier ones keeps some life', () => {
    const met = metByFurtherLoad(30_000, law, null);
    expect(met(0)).toBe(0);
    expect(met(300)).toBeLessThan(0.5);
  });

  test('never falls and ends at 1', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 30_000, noNaN: true }),
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        (load, a, b) => {
          const met = metByFurtherLoad(load, law, null);
          expect(met(Math.max(a, b))).toBeGreaterThanOrEqual(met(Math.min(a, b)));
          expect(met(1e9)).toBe(1);
        },
      ),
      { numRuns: 40 },
    );
  });
});
