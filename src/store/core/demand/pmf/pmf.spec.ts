import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { betaBinomial } from './beta-binomial.js';
import { compound, convolve, convolvedTimes, inSteps, mixed } from './convolve.js';
import { digamma, logGamma } from './log-gamma.js';
import { negativeBinomial, poisson } from './negative-binomial.js';
import { always, atMost, meanOf, quantileOf, shortfall, varianceOf } from './pmf.js';
import { poissonBinomial } from './poisson-binomial.js';

const sum = (pmf: ArrayLike<number>) => Array.from(pmf).reduce((total, share) => total + share, 0);
const rounded = (pmf: ArrayLike<number>, digits: number) => Array.from(pmf, (share) => Number(share.toFixed(digits)));

const someNeed = fc
  .array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 12 })
  .filter((weights) => sum(weights) > 0.1)
  .map((weights) => Float64Array.from(weights, (weight) => weight / sum(weights)));

describe('distributions of pieces', () => {
  test('add up: means and variances of a sum are the sums', () => {
    fc.assert(
      fc.property(someNeed, someNeed, (a, b) => {
        const both = convolve(a, b);
        expect(sum(both)).toBeCloseTo(1, 9);
        expect(meanOf(both)).toBeCloseTo(meanOf(a) + meanOf(b), 5);
        expect(varianceOf(both)).toBeCloseTo(varianceOf(a) + varianceOf(b), 4);
      }),
      { numRuns: 50 },
    );
  });

  test('taken n times are the same as added one by one', () => {
    fc.assert(
      fc.property(someNeed, fc.nat(6), (pmf, n) => {
        const added = Array.from({ length: n }, () => pmf).reduce<Float64Array>((total, one) => convolve(total, one), always(0));
        expect(rounded(convolvedTimes(pmf, n).slice(0, 8), 6)).toEqual(rounded(added.slice(0, 8), 6));
      }),
      { numRuns: 30 },
    );
  });

  test('mixed have the weighted mean', () => {
    fc.assert(
      fc.property(someNeed, someNeed, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, weight) => {
        expect(meanOf(mixed([a, b], [weight, 1 - weight]))).toBeCloseTo(weight * meanOf(a) + (1 - weight) * meanOf(b), 5);
      }),
      { numRuns: 30 },
    );
  });

  test('fall short of a stock by less the higher it is, and cover it to their quantile', () => {
    fc.assert(
      fc.property(someNeed, fc.double({ min: 0.01, max: 0.99, noNaN: true }), (pmf, probability) => {
        const enough = quantileOf(pmf, probability);
        expect(atMost(pmf, enough)).toBeGreaterThanOrEqual(probability - 1e-9);
        expect(enough === 0 || atMost(pmf, enough - 1) < probability).toBe(true);
        expect(shortfall(pmf, enough) - shortfall(pmf, enough + 1)).toBeCloseTo(1 - atMost(pmf, enough), 9);
      }),
      { numRuns: 50 },
    );
  });

  test('of sets of three hold multiples of three', () => expect([...inSteps([0.4, 0.6], 3)]).toEqual([0.4, 0, 0, 0.6]));
});

describe('the negative binomial distribution', () => {
  test('with mean 3 and variance 6 needs 8 for 95 %, where the Poisson distribution needs 6', () => {
    // Exact: r 3, p 1/2.
    expect(rounded(negativeBinomial(3, 6).slice(0, 4), 12)).toEqual([0.125, 0.1875, 0.1875, 0.15625]);
    expect(quantileOf(negativeBinomial(3, 6), 0.95)).toBe(8);
    expect(atMost(negativeBinomial(3, 6), 7)).toBeCloseTo(0.9453, 4);
    expect(quantileOf(poisson(3), 0.95)).toBe(6);
    expect(atMost(poisson(3), 5)).toBeCloseTo(0.9161, 4);
  });

  test.each([
    [0.02, 0.4],
    [1.7, 1.7],
    [40, 300],
    [900, 900],
    [2500, 40_000],
  ])('keeps a mean of %p and a variance of %p', (mean, variance) => {
    const pmf = negativeBinomial(mean, variance);
    expect(sum(pmf)).toBeCloseTo(1, 9);
    expect(meanOf(pmf) / mean).toBeCloseTo(1, 3);
    expect(varianceOf(pmf) / variance).toBeCloseTo(1, 1);
  });
});

describe('a compound distribution', () => {
  test('has the mean and the variance of demand that comes in orders', () => {
    // Mean l L E[X] = 3, variance l L E[X^2] = 7.5 for l 0.5 a period, L 3, sizes with E[X] 2 and E[X^2] 5 (Poisson orders; exact).
    const pmf = compound(poisson(1.5), [0, 0.5, 0, 0.5]);
    expect(meanOf(pmf)).toBeCloseTo(3, 4);
    expect(varianceOf(pmf)).toBeCloseTo(7.5, 3);
  });
});

describe('the Poisson-binomial distribution', () => {
  // Printed in the vignette of the R package PoissonBinomial.
  test.each([
    [[0, 0, 0.1, 0.2, 0.4, 0.8, 1], [0, 0.0864, 0.4344, 0.3784, 0.0944, 0.0064, 0, 0], 4],
    [[0, 0, 0.4, 1], [0, 0.6, 0.4, 0, 0], 4],
    [[0.3, 0.3, 0.3, 0.3, 0.3, 0.3, 0.3], [0.0823543, 0.2470629, 0.3176523, 0.2268945, 0.0972405, 0.0250047, 0.0035721, 0.0002187], 7],
  ])('of %p is %p', (probabilities, pmf, digits) => expect(rounded(poissonBinomial(probabilities), digits)).toEqual(pmf));
});

describe('the beta-binomial distribution', () => {
  test('spreads around n a / (a + b)', () => {
    const pmf = betaBinomial(4, 0.8, 2.2);
    expect(sum(pmf)).toBeCloseTo(1, 12);
    expect(meanOf(pmf)).toBeCloseTo((4 * 0.8) / 3, 12);
  });
});

describe('the gamma function', () => {
  test('follows its recurrence, and so does its derivative', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 500, noNaN: true }), (x) => {
        expect(logGamma(x + 1) - logGamma(x) - Math.log(x)).toBeCloseTo(0, 9);
        expect(digamma(x + 1) - digamma(x) - 1 / x).toBeCloseTo(0, 8);
      }),
      { numRuns: 50 },
    );
  });
});
