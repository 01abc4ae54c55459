import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { TRADE_UNIT_CODES, tradeUnit } from './trade-units.js';
import { unitFactor, unitProblem, useUnitsIn } from './unit-factor.js';

describe('units of trade', () => {
  test('convert back and forth where the units alone say how', () => {
    fc.assert(
      fc.property(fc.constantFrom(...TRADE_UNIT_CODES), fc.constantFrom(...TRADE_UNIT_CODES), (one, other) => {
        const there = unitFactor(one, other);
        const back = unitFactor(other, one);
        expect(there.kind).toBe(back.kind);
        if (there.kind === 'fixed' && back.kind === 'fixed') expect(there.factor * back.factor).toBeCloseTo(1, 9);
      }),
      { numRuns: 200 },
    );
  });

  test.each([
    ['TNE', 'KGM', 1000],
    ['K6', 'LTR', 1000],
    ['DZN', 'C62', 12],
    ['PR', 'H87', 2],
    ['GLL', 'LTR', 3.785412],
    ['FOT', 'MMT', 304.8],
  ])('1 %s is so many %s', (bought, used, factor) => expect(unitFactor(bought, used)).toEqual({ kind: 'fixed', factor }));

  test.each(['GL', 'KL', 'PK', 'DR', 'BX', 'CT', 'CS', 'RO', 'JR', 'IH', 'foo', ''])('"%s" is none, and it is said why', (code) => {
    expect(tradeUnit(code)).toMatchObject({ kind: 'unknown', why: expect.stringMatching(/\w/) });
  });

  test('a factor that contradicts the units is refused, one that the item must say is taken', () => {
    expect(unitProblem('MTQ', 'LTR', 1)).toContain('1000');
    expect(unitProblem('KGM', 'LTR', 0.8)).toBeNull();
    expect(unitProblem('GL', 'LTR', 1)).toContain('GLL');
    expect(unitProblem('C62', 'C62', 3)).toContain('not 3');
  });

  test('an amount in another measure of what is bought converts too', () => {
    const drum = { useUnit: 'LTR', purchaseUnit: 'KGM', unitsPerPurchase: 0.8 };
    expect(useUnitsIn('TNE', drum)).toBe(800);
    expect(useUnitsIn('MTR', drum)).toBeNull();
  });
});
