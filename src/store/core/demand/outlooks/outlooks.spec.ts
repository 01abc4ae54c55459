import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { fitCatalogue } from '../catalogue/fit-catalogue.js';
import { needUntil } from '../need-until.js';
import { meanOf, quantileOf, varianceOf } from '../pmf/pmf.js';
import type { FittedPart, OutlookRecord, PastOutlook } from '../types.js';
import { changeChances } from './change-chances.js';
import { fittedNeed } from './fitted-need.js';
import { inverseNormal } from './inverse-normal.js';
import { learnRecord } from './learn-record.js';

const record = (more: Partial<OutlookRecord> = {}): OutlookRecord => ({
  buckets: [{ upToDays: null, bias: 0, spread: 0.3, n: 500 }],
  sameWater: 0,
  otherWater: 0,
  n: 500,
  lasted: 0,
  ...more,
});
const part = (p50Days: number, more: Partial<FittedPart> = {}): FittedPart => ({
  cause: 'part',
  quantity: 1,
  water: 'north',
  ageDays: 0,
  stated: { p50Days, p10Days: null, p90Days: null, daysAhead: [], metByDay: [] },
  nextLifeDays: null,
  ...more,
});

describe('the need of fitted parts', () => {
  test('is the sum of their chances on average, however they go together', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 5, max: 120, noNaN: true }), { minLength: 1, maxLength: 12 }),
        fc.double({ min: 0, max: 0.5, noNaN: true }),
        (days, same) => {
          const parts = days.map((p50, at) => part(p50, { water: at % 2 === 0 ? 'north' : 'south' }));
          const of = record({ sameWater: same, otherWater: same / 2 });
          const expected = parts.reduce((sum, one) => sum + changeChances(one, 40, of).once, 0);
          expect(meanOf(fittedNeed(parts, 40, of))).toBeCloseTo(expected, 1);
        },
      ),
      { numRuns: 30 },
    );
  });

  test('spreads further when parts share their water', () => {
    const parts = Array.from({ length: 10 }, () => part(40));
    const [alone, shared] = [record(), record({ sameWater: 0.5, otherWater: 0.2 })].map((of) => fittedNeed(parts, 40, of));
    expect(varianceOf(alone ?? [])).toBeCloseTo(2.5, 6);
    expect(varianceOf(shared ?? [])).toBeGreaterThan(6);
    expect(quantileOf(shared ?? [], 0.95)).toBeGreaterThan(quantileOf(alone ?? [], 0.95));
  });

  test('of a part that outlived part of its outlook is given that it did', () => {
    const now = changeChances(part(40, { ageDays: 40 }), 10, record()).once;
    expect(now).toBeGreaterThan(changeChances(part(40), 10, record()).once);
    expect(now).toBeLessThan(1);
  });
});

describe('the record of outlooks', () => {
  const past = (factor: number, met = true): PastOutlook[] =>
    Array.from({ length: 2000 }, (_, at) => {
      const p50Days = 10 + (at % 100);
      return {
        week: at % 100,
        water: String(at % 3),
        p50Days,
        p10Days: null,
        p90Days: null,
        lastedDays: p50Days * factor * Math.exp(0.2 * inverseNormal(((at * 37) % 2000) / 2000 + 0.00025)),
        met,
      };
    });

  test('sees that outlooks were late, and takes it off', () => {
    const learnt = learnRecord(past(0.8));
    expect(learnt.lasted).toBeCloseTo(-0.2, 2);
    for (const { bias, spread } of learnt.buckets.filter(({ n }) => n > 0)) {
      expect(bias).toBeGreaterThan(Math.log(0.8) - 0.06);
      expect(bias).toBeLessThan(-0.1);
      expect(spread).toBeGreaterThan(0.15);
      expect(spread).toBeLessThan(0.3);
    }
  });

  test('does not take parts that still run for parts that ended', () => {
    const running = past(1.5, false);
    expect(learnRecord([...past(1), ...running]).lasted).toBeGreaterThan(learnRecord(past(1)).lasted);
  });

  test('without any past is what is thought beforehand', () => {
    const { buckets, n, sameWater, otherWater } = learnRecord([]);
    expect([n, sameWater, otherWater, buckets[0]?.bias, buckets[0]?.spread]).toEqual([0, 0.35, 0.25, 0, 0.35]);
  });
});

describe('the need until an order has come', () => {
  const fit = fitCatalogue([[0, 1, 0, 0, 2, 0, 0, 0]]);
  const protection = { leadTime: [0, 0, 0, 0, 0, 0, 0, 0.5, 0, 0, 0, 0, 0, 0, 0.5], reviewDays: 7 };

  test('adds plans, outlooks and the rest, and says what drives it', () => {
    const planned = [{ cause: 'kit', quantity: 2, reserved: 0, inDays: 3, slipDays: 0 }];
    const { mean, ofPlans, ofOutlooks, ofTheRest, reasons, daysCovered } = needUntil(
      { use: [0, 0, 1], planned, fitted: [part(10)] },
      protection,
      fit,
      record(),
    );
    expect(mean).toBeCloseTo(ofPlans + ofOutlooks + ofTheRest, 4);
    expect(ofPlans).toBe(2);
    expect(daysCovered).toBeCloseTo(17.5, 9);
    expect(reasons[0]).toEqual({ kind: 'planned', cause: 'kit', inDays: 3, expected: 2 });
  });

  test('leaves out what is reserved already', () => {
    const of = (reserved: number) =>
      needUntil({ use: [], planned: [{ cause: 'kit', quantity: 2, reserved, inDays: 3, slipDays: 0 }], fitted: [] }, protection, fit, record()).ofPlans;
    expect([of(0), of(1), of(2)]).toEqual([2, 1, 0]);
  });
});
