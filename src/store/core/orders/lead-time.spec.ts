import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { leadTimeOf, leadTimesAlike, quantileDays, type SeenLeadTime } from './lead-time.js';
import { leadTimePrior } from './lead-time-prior.js';

const line = (days: number, came = true, statedDays: number | null = 10, share = 1): SeenLeadTime => ({ days, share, came, statedDays });
const times = (count: number, seen: SeenLeadTime) => Array.from({ length: count }, () => seen);
const sum = (pmf: readonly number[]) => pmf.reduce((total, share) => total + share, 0);

const seen = fc.record({
  days: fc.nat(200),
  share: fc.double({ min: 0.05, max: 1, noNaN: true }),
  came: fc.boolean(),
  statedDays: fc.option(fc.nat(100), { nil: null }),
});

describe('a lead time', () => {
  test('is a distribution, whatever was seen', () => {
    fc.assert(
      fc.property(fc.option(fc.nat(200), { nil: null }), fc.array(seen, { maxLength: 20 }), fc.array(seen, { maxLength: 20 }), (stated, own, others) => {
        const { pmf, p10, p50, p90 } = leadTimeOf(stated, own, others);
        expect(sum(pmf)).toBeCloseTo(1, 9);
        expect(Math.min(...pmf)).toBeGreaterThanOrEqual(0);
        expect(p10 <= p50 && p50 <= p90).toBe(true);
      }),
      { numRuns: 100 },
    );
  });

  test('of many items of a supplier is, of each, what it is by itself', () => {
    const lines = fc.array(fc.tuple(seen, fc.constantFrom('a', 'b', 'c')), { maxLength: 20 });
    fc.assert(
      fc.property(fc.option(fc.nat(200), { nil: null }), lines, (stated, pairs) => {
        const ofSupplier = pairs.map(([one, itemId]) => ({ ...one, itemId }));
        const alike = leadTimesAlike(stated, ofSupplier);
        const of = (item: string, own: boolean) => ofSupplier.filter(({ itemId }) => (itemId === item) === own);
        for (const item of ['a', 'b', 'c', 'never ordered']) expect(alike(item)).toEqual(leadTimeOf(stated, of(item, true), of(item, false)));
      }),
      { numRuns: 50 },
    );
  });

  test('is what is stated, until something comes', () => {
    const { pmf, p50, came } = leadTimeOf(10, []);
    expect(pmf).toEqual(leadTimePrior(10));
    expect([p50, came]).toEqual([10, 0]);
  });

  test('where nothing is stated, is two weeks, and far less sure', () => {
    const [stated, assumed] = [leadTimeOf(14, []), leadTimeOf(null, [])];
    expect(assumed.p50).toBe(14);
    expect(assumed.p90 - assumed.p10).toBeGreaterThan(1.5 * (stated.p90 - stated.p10));
  });

  test('moves to what is seen, the more so the more of it there is', () => {
    const medians = [0, 1, 3, 10, 100].map((count) => leadTimeOf(10, times(count, line(20))).meanDays);
    expect(medians).toEqual([...medians].sort((a, b) => a - b));
    expect(medians.at(-1)).toBeGreaterThan(19);
  });

  test('of three lines that came alike lies halfway between them and what was stated', () => {
    // With as many lines as the prior counts for, the estimate without open lines is the mean of the two distributions.
    const { pmf } = leadTimeOf(10, times(3, line(40)));
    const prior = leadTimePrior(10);
    expect(pmf[40]).toBeCloseTo(0.5 + (prior[40] ?? 0) / 2, 6);
    expect(pmf[10]).toBeCloseTo((prior[10] ?? 0) / 2, 9);
  });

  test('grows with lines that are still awaited, and less with none', () => {
    const awaited = leadTimeOf(10, [...times(3, line(10)), ...times(3, line(30, false))]);
    expect(awaited.p90).toBeGreaterThan(30);
    expect(awaited.awaited).toBe(3);
    expect(leadTimeOf(10, times(3, line(2, false))).meanDays).toBeCloseTo(leadTimeOf(10, []).meanDays, 0);
  });

  test('weighs parts of a line by their share', () => {
    const parts = leadTimeOf(10, [line(5, true, 10, 0.25), line(15, true, 10, 0.75)]);
    const halves = leadTimeOf(10, [line(5, true, 10, 0.5), line(15, true, 10, 0.5)]);
    expect(parts.came).toBe(1);
    expect(parts.meanDays).toBeGreaterThan(halves.meanDays);
  });

  test('learns from the supplier’s other items how much later than stated it is', () => {
    const late = times(20, line(15, true, 10)); // half as long again
    expect(leadTimeOf(40, [], late).p50).toBeCloseTo(60, -1);
    expect(leadTimeOf(40, times(30, line(40)), late).p50).toBe(40);
  });

  // Kaplan and Meier's estimate is the limit without a prior: 4 lines, of which one is given up on day 2, so that 2 of the 2 left come on days 3 and 4.
  test('with many lines is Kaplan and Meier’s estimate', () => {
    const many = [line(1), line(2, false), line(3), line(4)].flatMap((one) => times(3000, one));
    const { pmf } = leadTimeOf(3, many);
    expect([1, 2, 3, 4].map((day) => Number((pmf[day] ?? 0).toFixed(2)))).toEqual([0.25, 0, 0.38, 0.37]);
  });
});

test('a quantile is the first day that reaches the probability', () => {
  expect([0, 0.1, 0.5, 0.51, 1].map((at) => quantileDays([0, 0.5, 0.3, 0.2], at))).toEqual([0, 1, 1, 2, 3]);
});
