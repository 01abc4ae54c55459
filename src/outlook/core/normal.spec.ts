import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { logNormalCdf, meanAbove, normalCdf } from './normal.js';

describe('the normal distribution', () => {
  // Tables of the normal distribution, as in any statistics textbook (from memory).
  test.each([
    [-1.6448536269514722, 0.05],
    [-1, 0.15865525393145707],
    [0, 0.5],
    [1.2815515655446004, 0.9],
    [3, 0.9986501019683699],
    [6, 0.9999999990134123],
  ])('at %d is %d', (z, probability) => {
    expect(normalCdf(z)).toBeCloseTo(probability, 13);
  });

  test('never falls, is symmetric and does not jump where the method changes', () => {
    const z = fc.double({ min: -9, max: 9, noNaN: true });
    fc.assert(
      fc.property(z, z, (a, b) => {
        expect(normalCdf(Math.max(a, b))).toBeGreaterThanOrEqual(normalCdf(Math.min(a, b)) - 1e-15);
        expect(normalCdf(a) + normalCdf(-a)).toBeCloseTo(1, 14);
      }),
    );
    expect(normalCdf(-4.000000001) / normalCdf(-3.999999999)).toBeCloseTo(1, 6);
  });

  test('keeps its logarithm where the probability is too small for a number', () => {
    expect(logNormalCdf(-5)).toBeCloseTo(Math.log(normalCdf(-5)), 12);
    expect(Number.isFinite(logNormalCdf(-200))).toBe(true);
    expect(normalCdf(-200)).toBe(0);
  });

  test('the mean above z lies above z and comes near it far out', () => {
    for (const z of [-3, 0, 2, 3.9, 4.1, 10]) expect(meanAbove(z)).toBeGreaterThan(Math.max(z, 0));
    expect(meanAbove(30) - 30).toBeCloseTo(1 / 30, 3);
  });
});
