import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { theilSen } from './theil-sen.js';

const Z_90 = 1.6448536269514722;
const series = (y: readonly number[], x: readonly number[] = y.map((_, i) => i)) => y.map((value, i) => [x[i] ?? 0, value] as const);

const LITTLE = [12.9, 14.8, 13.2, 15.7, 13.8, 15.6, 12.9, 11.0, 17.3, 15.9, 19.0, 18.3, 20.1, 21.7];
const TEN = [0.3, 0.33, 0.31, 0.36, 0.38, 0.37, 0.42, 0.43, 0.47, 0.46];
const UNEVEN_X = [0, 1, 2, 5, 6, 9, 14, 20];
const UNEVEN_Y = [10, 11, 13, 15, 18, 19, 30, 33];

describe('the Theil-Sen line', () => {
  // Z 2.9058: worked example published by J. Little, College of the Holy Cross. Slope, intercept and limits: scipy and the interpolated ranks of Gilbert, computed apart.
  test('agrees with a published worked example', () => {
    const line = theilSen(series(LITTLE));
    expect(line).toMatchObject({ s: 54 });
    expect(line?.varS).toBeCloseTo(332.6667, 4);
    expect(line?.z).toBeCloseTo(2.9058, 4);
    expect(line?.slope).toBeCloseTo(0.5666667, 7);
    expect(line?.intercept).toBeCloseTo(11.9667, 4);
    expect(line?.low).toBeCloseTo(0.3231298, 7);
    expect(line?.high).toBeCloseTo(0.8697837, 7);
  });

  // Computed apart with scipy (slope, intercept) and from the definition (S, Z, limits).
  test.each([
    ['ten points', series(TEN), undefined, { slope: 0.02, s: 39, varS: 125, z: 3.39882, low: 0.0155435, high: 0.0231848 }],
    ['uneven spacing, 90 %', series(UNEVEN_Y, UNEVEN_X), Z_90, { slope: 1.1789474, s: 28, varS: 65.3333, z: 3.34038, low: 1.0, high: 1.4499208 }],
  ])('agrees with other programs: %s', (_, points, z, expected) => {
    const line = theilSen(points, z);
    for (const [name, value] of Object.entries(expected)) expect(line?.[name as keyof typeof expected]).toBeCloseTo(value, 4);
  });

  test('is not bent by one wrong point', () => {
    expect(theilSen(series(TEN.map((y, i) => (i === 5 ? 2 : y))))?.slope).toBeCloseTo(0.02, 12);
  });

  test('has none where all points lie at one x, and no trend where all are equal', () => {
    expect(theilSen([])).toBeNull();
    expect(theilSen([[1, 2]])).toBeNull();
    expect(
      theilSen([
        [1, 2],
        [1, 5],
      ]),
    ).toBeNull();
    expect(theilSen(series([4, 4, 4, 4]))).toMatchObject({ slope: 0, z: 0, low: 0, high: 0 });
  });

  test('scales with its units and lies between its limits', () => {
    const y = fc.array(fc.double({ min: -100, max: 100, noNaN: true }), { minLength: 3, maxLength: 20 });
    fc.assert(
      fc.property(y, (values) => {
        const line = theilSen(series(values));
        const scaled = theilSen(series(values.map((value) => value * 8)));
        expect(scaled?.slope).toBeCloseTo((line?.slope ?? NaN) * 8, 9);
        expect(line && line.low <= line.slope && line.slope <= line.high).toBe(true);
      }),
      { numRuns: 40 },
    );
  });

  const FILE = '../shared/data/crosscheck.json';
  if (existsSync(FILE)) {
    test('agrees with every stored check value', () => {
      const stored = JSON.parse(readFileSync(FILE, 'utf8')) as Record<string, Record<string, number>>;
      const cases = [
        ['theil_sen_mk14', theilSen(series(LITTLE))],
        ['theil_sen_dp10', theilSen(series(TEN))],
        ['theil_sen_uneven', theilSen(series(UNEVEN_Y, UNEVEN_X), Z_90)],
      ] as const;
      for (const [name, line] of cases) {
        const want = stored[name];
        expect([line?.slope, line?.s, line?.low, line?.high].map((value) => value?.toFixed(9))).toEqual(
          [want?.slope, want?.S, want?.lower_gilbert_interp, want?.upper_gilbert_interp].map((value) => value?.toFixed(9)),
        );
        expect(line?.z).toBeCloseTo(want?.Z ?? NaN, 9);
      }
    });
  } else {
    test.skip(`needs ${FILE}`, () => undefined);
  }
});
