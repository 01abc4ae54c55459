import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { batchLitres } from '../dose.js';
import { densityKgL } from './density.js';
import { chlorineReagentKg, citricKg, neutraliserKg, productLitres, pureKgToPh } from './neutralise.js';

describe('the make-up of a batch', () => {
  // Computed apart from molar masses and trade densities (from memory): 0.400 kg/m3 or 0.525 L of 50 % caustic to pH 12, 0.365 kg/m3 or 0.98 L of 32 % acid to pH 2.
  test('to a pH is a lower bound from the ion product of water', () => {
    expect(pureKgToPh('sodium hydroxide', 12, 1)).toBeCloseTo(0.4, 3);
    expect(productLitres(0.4, 50, densityKgL('sodium hydroxide', 50) ?? NaN)).toBeCloseTo(0.525, 3);
    expect(pureKgToPh('hydrochloric acid', 2, 1)).toBeCloseTo(0.365, 3);
    expect(productLitres(0.365, 32, 1.16)).toBeCloseTo(0.98, 2);
    expect(pureKgToPh('citric acid', 3, 1)).toBeNull();
    expect(pureKgToPh('sodium hydroxide', 5, 1)).toBeNull();
    expect(productLitres(1, 0, 1)).toBeNull();
  });

  // Computed apart: 4.00 L of 125 g/L for 500 mg/L in 1 m3; 20 kg without water or 21.9 kg monohydrate for 2 % in 1 m3.
  test('of hypochlorite and citric acid', () => {
    expect(batchLitres(500, 1, 125)).toBeCloseTo(4, 9);
    const { anhydrousKg, monohydrateKg } = citricKg(2, 1);
    expect([anhydrousKg, monohydrateKg]).toEqual([20, expect.closeTo(21.9, 1)]);
  });

  // Molarity tables of reagents: 32 % hydrochloric acid of 1.16 kg/L is 10.2 M, 98.0 mL for 1 M; 50.5 % caustic of 1.53 kg/L 19.4 M, 51.5 mL.
  test('agrees with tables of molarity', () => {
    expect(1000 * (productLitres(0.036461, 32, 1.16) ?? NaN)).toBeCloseTo(98.2, 0);
    expect(1000 * (productLitres(0.039997, 50.5, 1.53) ?? NaN)).toBeCloseTo(51.8, 0);
  });
});

describe('what neutralises it', () => {
  // Field guide Disinfection of Pipelines and Storage Facilities, table 7-2: 1 m3 at 500 mg/L takes 0.81 kg of bisulfite.
  test('takes chlorine away by weight', () => {
    expect(chlorineReagentKg('sodium bisulfite', 500, 1)).toBeCloseTo(0.805, 9);
    expect(chlorineReagentKg('sodium thiosulfate', 200, 2)).toBeCloseTo(0.76, 9);
  });

  test('comes back to itself between acid and caustic', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.constantFrom('hydrochloric acid' as const, 'citric acid' as const), (kg, acid) => {
        expect(neutraliserKg('sodium hydroxide', neutraliserKg(acid, kg, 'sodium hydroxide'), acid)).toBeCloseTo(kg, 6);
      }),
      { numRuns: 20 },
    );
    expect(neutraliserKg('citric acid', 192.12, 'sodium hydroxide')).toBeCloseTo(3 * 39.997, 6);
  });
});

describe('density', () => {
  test('is that of the rows, on a line between them, and unknown beyond', () => {
    expect(densityKgL('citric acid', 10)).toBe(1.0402);
    expect(densityKgL('citric acid', 0)).toBe(0.9982);
    expect(densityKgL('sodium hydroxide', 45)).toBeCloseTo(1.47745, 5);
    expect(densityKgL('sodium hydroxide', 51)).toBeNull();
    expect(densityKgL('sodium hydroxide', -1)).toBeNull();
  });
});
