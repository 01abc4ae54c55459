import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { cusum } from './cusum.js';

const high = (points: ReturnType<typeof cusum>) => points.map((point) => point.high);
const low = (points: ReturnType<typeof cusum>) => points.map((point) => point.low);
const expectClose = (values: readonly number[], expected: readonly number[], digits: number) => {
  expect(values).toHaveLength(expected.length);
  for (const [at, value] of expected.entries()) expect(values[at]).toBeCloseTo(value, digits);
};

describe('the cumulative sum', () => {
  // Example of the NIST/SEMATECH e-Handbook 6.3.2.3: data, k and h from memory, sums computed apart from them.
  test('finds the shift of the handbook at group 14', () => {
    const means = [
      324.925, 324.675, 324.725, 324.35, 325.35, 325.225, 324.125, 324.525, 325.225, 324.6, 324.625, 325.15, 328.325, 327.25, 327.825, 328.5, 326.675, 327.775,
      326.875, 328.35,
    ];
    const points = cusum(means, { target: 325, k: 0.3175, h: 4.1959 });
    expectClose(high(points), [0, 0, 0, 0, 0.0325, 0, 0, 0, 0, 0, 0, 0, 3.0075, 4.94, 7.4475, 10.63, 11.9875, 14.445, 16.0025, 19.035], 4);
    expectClose(low(points), [0, 0.0075, 0, 0.3325, 0, 0, 0.5575, 0.715, 0.1725, 0.255, 0.3125, 0, 0, 0, 0, 0, 0, 0, 0, 0], 4);
    expect(points.findIndex(({ signal }) => signal !== null)).toBe(13);
  });

  // Montgomery and Runger, Applied Statistics and Probability for Engineers, 3rd edition, table 16-8.
  test('gives the sums of a printed table without a signal', () => {
    const viscosity = [102, 94.8, 98.3, 98.4, 102, 98.5, 99, 97.7, 100, 98.1, 101.3, 98.7, 101.1, 98.4, 97, 96.7, 100.3, 101.4, 97.2, 101];
    const points = cusum(viscosity, { target: 99, k: 1, h: 10 });
    expectClose(high(points), [2, 0, 0, 0, 2, 0.5, 0, 0, 0, 0, 1.3, 0, 1.1, 0, 0, 0, 0.3, 1.7, 0, 1], 9);
    expectClose(low(points), [0, 3.2, 2.9, 2.5, 0, 0, 0, 0.3, 0, 0, 0, 0, 0, 0, 1, 2.3, 0, 0, 0.8, 0], 9);
    expect(points.every(({ signal }) => signal === null)).toBe(true);
  });

  // Computed apart: 56 L expected a week, standard deviation 1.5 L.
  test('finds a dosing pump that gives more from the sixth week on in the eighth', () => {
    const weeks = [57.1, 55.2, 56.4, 54.9, 56.8, 58.9, 59.6, 58.4, 60.1, 59.2].map((litres) => (litres - 56) / 1.5);
    const points = cusum(weeks, { target: 0, k: 0.5, h: 4 });
    expectClose(high(points), [0.233, 0, 0, 0, 0.033, 1.467, 3.367, 4.467, 6.7, 8.333], 3);
    expect(points.findIndex(({ signal }) => signal === 'high')).toBe(7);
  });

  test('looks the same from both sides', () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { maxLength: 30 }), (values) => {
        const mirrored = cusum(
          values.map((value) => -value),
          { target: 0, k: 0.5, h: 4 },
        );
        expectClose(low(mirrored), high(cusum(values, { target: 0, k: 0.5, h: 4 })), 9);
      }),
      { numRuns: 40 },
    );
  });
});
