import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import type { StretchFor } from '../record/calibration.js';
import { failsWithin, type LifeOfKind, lifeOfKind } from './life-of-kind.js';
import { LIFE_MODEL, lifeOutlook } from './life-outlook.js';
import { type WeibullFit, weibullFit } from './weibull-fit.js';

const failed = (...lives: number[]) => lives.map((life) => ({ life, failed: true }));
const suspended = (count: number, life: number) => Array.from({ length: count }, () => ({ life, failed: false }));
/** NIST/SEMATECH e-Handbook 8.4.1.3: ten failures, ten units still running when the test ended at 500 h. */
const NIST = [...failed(54, 187, 216, 240, 244, 335, 361, 373, 375, 386), ...suspended(10, 500)];

function fitOf(lives: Parameters<typeof weibullFit>[0]): WeibullFit {
  const fit = weibullFit(lives);
  if (fit.kind !== 'fit') throw new Error('no fit');
  return fit;
}

describe('the Weibull law of lives of which some were cut off', () => {
  test('is that of the published example', () => {
    const { scale, shape, lnLikelihood } = fitOf(NIST);
    expect(scale).toBeCloseTo(606.528, 2); // handbook 606.5280; R survreg 606.52756
    expect(shape).toBeCloseTo(1.7208, 4);
    expect(lnLikelihood).toBeCloseTo(-75.1346, 4);
  });

  test('is that of a published fit without suspensions', () => {
    // Cylinder replacements of an open maintenance example (CC BY): scale 365.5 d, shape 1.63.
    const { scale, shape } = fitOf(failed(269, 185, 594, 48, 579, 296));
    expect(scale).toBeCloseTo(365.5, 1);
    expect(shape).toBeCloseTo(1.62643, 4);
  });

  test('says what the published conditional figures say of a unit that has served 500 h', () => {
    const { scale, shape, failures } = fitOf(NIST);
    const one: LifeOfKind = { kind: 'learned', laws: [{ scale, shape, weight: 1 }], lives: 20, failures };
    // R, from the fit: 0.23227 within the next 100 h, half within 240.684 h.
    expect(failsWithin(one, 500)(100)).toBeCloseTo(0.2322738, 6);
    expect(failsWithin(one, 500)(240.68439)).toBeCloseTo(0.5, 6);
  });

  test('scales with the unit of the clock', () => {
    const hours = fitOf(NIST);
    const minutes = fitOf(NIST.map(({ life, failed: ended }) => ({ life: 60 * life, failed: ended })));
    expect(minutes.shape).toBeCloseTo(hours.shape, 9);
    expect(minutes.scale).toBeCloseTo(60 * hours.scale, 5);
  });

  test('is not made up from one failure, from the same age over and over, or from lives that are none', () => {
    expect(weibullFit(failed(100)).kind).toBe('too-little-data');
    expect(weibullFit(failed(100, 100, 100)).kind).toBe('too-little-data');
    expect(weibullFit(failed(0, -5, Number.NaN)).kind).toBe('too-little-data');
  });
});

describe('what lives of a kind teach', () => {
  test('is near the most likely law where there are many, and wider where there are few', () => {
    const many = lifeOfKind([...NIST, ...NIST, ...NIST, ...NIST]);
    const few = lifeOfKind([...failed(187, 335, 386), ...suspended(2, 500)]);
    if (many.kind !== 'learned' || few.kind !== 'learned') throw new Error('too few');
    expect(failsWithin(many, 0)(606.5)).toBeCloseTo(1 - Math.exp(-1), 1);
    const spread = (of: LifeOfKind) => Math.log(quantile(of, 0.9) / quantile(of, 0.1));
    const best = few.laws.reduce((one, law) => (law.weight > one.weight ? law : one));
    expect(spread(few)).toBeGreaterThan(spread({ ...few, laws: [{ ...best, weight: 1 }] }));
  });

  test('counts parts in use: the longer they last, the later the next one fails', () => {
    const short = lifeOfKind([...failed(187, 335, 386), ...suspended(5, 100)]);
    const long = lifeOfKind([...failed(187, 335, 386), ...suspended(5, 900)]);
    if (short.kind !== 'learned' || long.kind !== 'learned') throw new Error('too few');
    expect(quantile(long, 0.5)).toBeGreaterThan(quantile(short, 0.5));
  });

  test('rises from 0 and stays a probability, at any age', () => {
    const learned = lifeOfKind(NIST);
    if (learned.kind !== 'learned') throw new Error('too few');
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1e5, noNaN: true }),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        fc.double({ min: 0, max: 1e6, noNaN: true }),
        (age, one, other) => {
          const met = failsWithin(learned, age);
          const [sooner, later] = [met(Math.min(one, other)), met(Math.max(one, other))];
          expect(sooner).toBeGreaterThanOrEqual(0);
          expect(later).toBeLessThanOrEqual(1);
          expect(later).toBeGreaterThanOrEqual(sooner);
        },
      ),
      { numRuns: 50 },
    );
  });
});

describe('the outlook of a part in use', () => {
  const asked = (stretchFor?: StretchFor) =>
    lifeOutlook({
      kind: 'seal',
      clocks: [{ clock: 'run hours', age: 100, use: { mean: 2, sd: 0, days: 60 }, fleet: lifeOfKind(NIST) }],
      rule: null,
      originDay: '2026-01-01',
      ...(stretchFor === undefined ? {} : { stretchFor }),
    });

  test('has its range stretched as the record of its model asks for, about the same middle', () => {
    const [plain, wide] = [asked(), asked((model) => (model === `${LIFE_MODEL.model} ${LIFE_MODEL.modelVersion}` ? 2 : 1))];
    if (plain.kind !== 'outlook' || wide.kind !== 'outlook') throw new Error('no outlook');
    expect([plain.stretch, wide.stretch]).toEqual([1, 2]);
    expect(wide.p50Days).toBeCloseTo(plain.p50Days ?? Number.NaN, 1);
    expect(wide.p10Days ?? Number.NaN).toBeLessThan(plain.p10Days ?? Number.NaN);
  });
});

function quantile(of: LifeOfKind, share: number): number {
  const met = failsWithin(of, 0);
  let [low, high] = [0, 1e6];
  for (let round = 0; round < 60; round++) {
    const middle = (low + high) / 2;
    if (met(middle) < share) low = middle;
    else high = middle;
  }
  return high;
}
