import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type CameTrue, reachOf, stretched, stretchOf } from './calibration.js';

/** Truths that lie so many times the half range away from a middle of 40 days, each of a life of its own. */
const away = (...times: number[]): CameTrue[] =>
  times.map((time, at) => ({ life: String(at), p10Days: 20, p50Days: 40, p90Days: 80, stretch: 1, truthDays: 40 * 2 ** time }));
const spread = (count: number, most: number) => away(...Array.from({ length: count }, (_, at) => (at % 2 === 0 ? 1 : -1) * ((most * (at + 0.5)) / count)));

describe('ranges that are calibrated on the record', () => {
  test('stay as they are where they hold, are widened where they do not, and narrowed where they are wider than need be', () => {
    // Distances even from 0 to 1.25: 80 % of them up to 1.
    expect(stretchOf(spread(200, 1.25))).toBeCloseTo(1, 1);
    expect(stretchOf(spread(200, 2.5))).toBeCloseTo(2, 1);
    expect(stretchOf(spread(200, 0.8))).toBeLessThan(0.75);
  });

  test('move little with few lives, and not at all below three', () => {
    expect(stretchOf(spread(2, 5))).toBe(1);
    const [few, many] = [stretchOf(spread(5, 2.5)), stretchOf(spread(100, 2.5))];
    expect(few).toBeGreaterThan(1);
    expect(few).toBeLessThan(many);
  });

  test('count a life once, however often it was forecast', () => {
    const once = [...away(3, 3.1, 2.9), ...spread(20, 1)];
    const often = [...once, ...Array.from({ length: 50 }, () => ({ ...(away(3)[0] as CameTrue), life: '0' }))];
    expect(stretchOf(often)).toBeCloseTo(stretchOf(once), 1);
  });

  test('know by how much a range had been stretched already', () => {
    const before = spread(60, 2.5);
    const stretch = stretchOf(before);
    const after = before.map((one) => ({ ...one, p10Days: 40 * 2 ** -stretch, p90Days: 40 * 2 ** stretch, stretch }));
    expect(stretchOf(after)).toBeCloseTo(stretch, 6);
  });

  test('are the same in any unit of time, and finite whatever comes', () => {
    const days = fc.double({ min: 0, max: 5000, noNaN: true });
    const one = fc.record({
      life: fc.constantFrom('a', 'b', 'c', 'd'),
      p10Days: fc.option(days),
      p50Days: fc.option(days),
      p90Days: fc.option(days),
      stretch: fc.constant(1),
      truthDays: days,
    });
    fc.assert(
      fc.property(fc.array(one), (past) => {
        const stretch = stretchOf(past);
        expect(stretch >= 0.5 && stretch <= 4).toBe(true);
      }),
      { numRuns: 60 },
    );
  });

  test('keep the middle, and stay a distribution', () => {
    const met = (days: number) => 1 - Math.exp(-((days / 60) ** 3));
    const middle = 60 * Math.LN2 ** (1 / 3);
    const wider = stretched(met, middle, 1.8);
    expect(wider(middle)).toBeCloseTo(0.5, 9);
    expect(wider(middle / 2)).toBeGreaterThan(met(middle / 2));
    expect(wider(2 * middle)).toBeLessThan(met(2 * middle));
    for (let day = 1; day < 400; day++) expect(wider(day)).toBeGreaterThanOrEqual(wider(day - 1));
    expect(stretched(met, 0, 2)(30)).toBe(met(30));
  });

  test('are learned by how far ahead a forecast looks', () => {
    expect([3, 14, 15, 63, 400].map(reachOf)).toEqual([0, 0, 1, 2, 4]);
  });
});
