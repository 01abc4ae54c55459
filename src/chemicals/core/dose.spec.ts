import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { appliedDoseMgL, batchLitres, neatLitresPerHour, powderGramsPerLitre, waterParts } from './dose.js';
import { availableChlorineGL, gramsPerLitre, STRENGTH_BASES, strengthAs } from './strength-units.js';

const US_GALLON_L = 3.785411784;
const POUND_KG = 0.45359237;
const FLUID_OUNCES = 128;
/** Published answers in US units rest on 8.34 lb for a gallon of water, which is 0.06 % low. */
const within = (value: number | null, published: number, share = 0.002) => expect(Math.abs((value ?? NaN) / published - 1)).toBeLessThan(share);

describe('published dosing examples', () => {
  test('1.5 MGD at 2.5 mg/L, 12.5 % product of 10.2 lb/gal: 31.28 lb of chlorine, 24.5 gal of product a day (operator-course practice problem; gallons computed apart)', () => {
    const flowM3h = (1.5e6 * US_GALLON_L) / 1000 / 24;
    const strength = gramsPerLitre(12.5, (10.2 * POUND_KG) / US_GALLON_L);
    const litresPerDay = (neatLitresPerHour(2.5, flowM3h, strength) ?? NaN) * 24;
    within((litresPerDay * strength) / 1000 / POUND_KG, 31.28);
    within(litresPerDay / US_GALLON_L, 24.53);
  });

  test('41.64 L of 0.5 % w/v NaOCl in 40,000 gal: 1.31 mg/L (California State Water Board, example calculations 2018, equation 1A)', () => {
    within(appliedDoseMgL(41.64, availableChlorineGL(0.5, '% w/v NaOCl', 1), (40_000 * US_GALLON_L) / 1000), 1.31);
  });

  test('40 mL/min of 0.25 % w/v NaOCl into 35 gpm: 0.72 mg/L (the same, equation 2A)', () => {
    within(appliedDoseMgL(40 * 0.06, availableChlorineGL(0.25, '% w/v NaOCl', 1), (35 * 60 * US_GALLON_L) / 1000), 0.72);
  });

  // Operator tutoring page on solutions.
  test.each([
    ['12 % of density 1.41', 12, 1.41, 1.41],
    ['65 % of density 1.21', 65, 1.21, 6.56],
    ['30 % alum of density 1.16', 30, 1.16, 2.9],
  ])('%s', (_, percent, density, poundsPerGallon) => {
    within((gramsPerLitre(percent, density) * US_GALLON_L) / 1000 / POUND_KG, poundsPerGallon);
  });

  test('180 lb of solution of 8.34 lb/gal a day: 21.6 gal (Spellman, Science of Water, p. 395)', () => {
    const strength = gramsPerLitre(100, (8.34 * POUND_KG) / US_GALLON_L);
    within((batchLitres(180 * POUND_KG * 1000, 1, strength) ?? NaN) / US_GALLON_L, 21.6);
  });

  // US CDC, chlorine solution preparation (appendix E).
  test('3.5 % to 0.5 %: 6 parts of water; 5 % to 0.1 %: 49 parts; 35 % powder to 0.5 %: 14.3 g/L', () => {
    expect(waterParts(3.5, 0.5)).toBeCloseTo(6, 9);
    expect(waterParts(5, 0.1)).toBeCloseTo(49, 9);
    expect(powderGramsPerLitre(0.5, 35)).toBeCloseTo(14.3, 1);
  });

  // Kansas Department of Health and Environment, disinfecting with 5.25 % bleach; strength as NaOCl.
  test('5.25 % bleach: 122 fl oz for 50 mg/L in 1,000 gal, 78 gal for 410 mg/L in 10,000 gal', () => {
    within(((batchLitres(50, (1000 * US_GALLON_L) / 1000, 52.5) ?? NaN) / US_GALLON_L) * FLUID_OUNCES, 122);
    within((batchLitres(410, (10_000 * US_GALLON_L) / 1000, 52.5) ?? NaN) / US_GALLON_L, 78);
  });

  // Computed apart.
  test('25 m3/h at 3 mg/L with 12 % by weight as Cl2 of density 1.18: 0.530 L/h; 500 mg/L in 1 m3 with 125 g/L: 4 L', () => {
    expect(neatLitresPerHour(3, 25, availableChlorineGL(12, 'wt % Cl2', 1.18))).toBeCloseTo(0.53, 3);
    expect(batchLitres(500, 1, 125)).toBeCloseTo(4, 9);
  });
});

describe('doses', () => {
  test('that were set are found again from the product used', () => {
    const value = fc.double({ min: 0.1, max: 200, noNaN: true });
    fc.assert(
      fc.property(value, value, value, (dose, flow, strength) => {
        expect(appliedDoseMgL(neatLitresPerHour(dose, flow, strength) ?? NaN, strength, flow)).toBeCloseTo(dose, 9);
      }),
      { numRuns: 40 },
    );
  });

  test('have no answer without strength or water', () => {
    expect(neatLitresPerHour(2, 20, 0)).toBeNull();
    expect(batchLitres(2, 20, 0)).toBeNull();
    expect(appliedDoseMgL(2, 125, 0)).toBeNull();
    expect(waterParts(0.1, 5)).toBe(0);
  });
});

describe('the strength on a label', () => {
  // Computed apart from the definitions of White (1972); densities are trade values.
  test.each([
    [125, 1.168, 12.5, 10.7, 11.24],
    [100, 1.13, 10.0, 8.85, 9.29],
    [150, 1.21, 15.0, 12.4, 13.01],
  ])('%d g/L of density %d', (available, density, trade, weightCl2, weightNaOCl) => {
    expect(strengthAs(available, 'trade %', density)).toBeCloseTo(trade, 2);
    expect(strengthAs(available, 'wt % Cl2', density)).toBeCloseTo(weightCl2, 2);
    expect(Math.abs(strengthAs(available, 'wt % NaOCl', density) - weightNaOCl)).toBeLessThan(0.015);
  });

  test('one "12.5 %" can mean 119 to 150 g/L', () => {
    expect(availableChlorineGL(12.5, '% w/v NaOCl', 1.2)).toBeCloseTo(119, 0);
    expect(availableChlorineGL(12.5, 'trade %', 1.2)).toBe(125);
    expect(availableChlorineGL(12.5, 'wt % NaOCl', 1.2)).toBeCloseTo(143, 0);
    expect(availableChlorineGL(12.5, 'wt % Cl2', 1.2)).toBe(150);
  });

  test('is the same after there and back', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...STRENGTH_BASES),
        fc.double({ min: 1, max: 200, noNaN: true }),
        fc.double({ min: 1, max: 1.3, noNaN: true }),
        (basis, grams, density) => {
          expect(availableChlorineGL(strengthAs(grams, basis, density), basis, density)).toBeCloseTo(grams, 9);
        },
      ),
      { numRuns: 40 },
    );
  });
});
