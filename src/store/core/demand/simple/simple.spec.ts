import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { meanOf } from '../pmf/pmf.js';
import { bootstrap } from './bootstrap.js';
import { croston, sba, tsb } from './croston.js';

// Monthly sales of a lubricant, productC of Hyndman and Athanasopoulos, Forecasting: Principles and Practice, 12.2.
const LUBRICANT = [0, 2, 0, 1, 0, 11, 0, 0, 0, 0, 2, 0, 6, 3, 0, 0, 0, 0, 0, 7, 0, 0, 0, 0, 0, 0, 0, 3, 1, 0, 0, 1, 0, 1, 0, 0];

describe("Croston's method and what became of it", () => {
  test('give what the R packages forecast and tsintermittent give for lubricant sales', () => {
    const found = croston(LUBRICANT, 0.1);
    expect(found?.size).toBeCloseTo(2.750254, 6);
    expect(found?.interval).toBeCloseTo(2.79328, 6);
    expect((found?.size ?? 0) / (found?.interval ?? 1)).toBeCloseTo(0.9845965, 6);
    expect(sba(LUBRICANT)).toBeCloseTo(0.9353667, 6);
    expect(tsb(LUBRICANT, 0.1, 0.1, 0)).toBeCloseTo(0.8040651, 6);
  });

  test('keep a forecast for ever, but for the one that smooths the probability', () => {
    const ended = [...LUBRICANT, ...Array.from({ length: 60 }, () => 0)];
    expect(sba(ended)).toBe(sba(LUBRICANT));
    expect(tsb(ended, 0.1, 0.1, 0)).toBeLessThan(0.01);
  });

  test('expect nothing of what was never needed', () => expect([sba([0, 0]), tsb([0, 0], 0.1, 0.1, 0.5), croston([], 0.1)]).toEqual([0, 0, null]));
});

describe('drawing from past months', () => {
  test('has as its mean that of the months', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(9), { minLength: 1, maxLength: 20 }), fc.integer({ min: 1, max: 5 }), (series, months) => {
        expect(meanOf(bootstrap(series, months))).toBeCloseTo((months * series.reduce((a, b) => a + b, 0)) / series.length, 4);
      }),
      { numRuns: 30 },
    );
  });
});
