import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { ewma, finalLimit } from './ewma.js';

describe('the moving average', () => {
  // Example of the NIST/SEMATECH e-Handbook 6.3.2.4, as quoted in a public test file. It prints the limits with its factor cut to 0.4201.
  const values = [52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4, 53.6, 52.1];
  const plan = { target: 50, sd: 2.0539, lambda: 0.3, width: 3 };

  test('is that of the handbook to the printed digits', () => {
    const printed = [50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52, 50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99];
    const points = ewma(values, plan);
    for (const [at, average] of printed.entries()) expect(Math.abs((points[at]?.average ?? NaN) - average)).toBeLessThan(0.00501);
    expect(points.every(({ signal }) => signal === null)).toBe(true);
  });

  test('has the limits of the handbook once settled', () => {
    expect(50 + finalLimit(plan)).toBeCloseTo(52.5884, 4);
    expect(50 - finalLimit(plan)).toBeCloseTo(47.4116, 4);
    expect(ewma(values, plan).at(-1)?.limit).toBeCloseTo(finalLimit(plan), 3);
  });

  test('signals on the side to which a series drifts', () => {
    const drift = Array.from({ length: 40 }, (_, at) => at / 10);
    const slow = { target: 0, sd: 1, lambda: 0.03, width: 2.437 };
    expect(ewma(drift, slow).at(-1)?.signal).toBe('high');
    expect(
      ewma(
        drift.map((value) => -value),
        slow,
      ).at(-1)?.signal,
    ).toBe('low');
  });

  test('stays between the least and the greatest of target and values', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: -9, max: 9, noNaN: true }), { minLength: 1, maxLength: 30 }),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (series, lambda) => {
          const averages = ewma(series, { target: 0, sd: 1, lambda, width: 3 }).map(({ average }) => average);
          expect(Math.max(...averages)).toBeLessThanOrEqual(Math.max(0, ...series) + 1e-9);
          expect(Math.min(...averages)).toBeGreaterThanOrEqual(Math.min(0, ...series) - 1e-9);
        },
      ),
      { numRuns: 40 },
    );
  });
});
