import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { temperatureCorrection } from './temperature-correction.js';

const temperature = fc.double({ min: 1, max: 40, noNaN: true });

describe('temperature correction', () => {
  // Calculated from the same IAPWS formula by another program: these rows check the code, not the formula.
  test.each([
    [1, 1.7283],
    [2, 1.6709],
    [5, 1.5158],
    [8, 1.3826],
    [10, 1.3039],
    [12, 1.2321],
    [15, 1.1358],
    [18, 1.051],
    [22, 0.9529],
    [25, 0.8886],
    [28, 0.8311],
    [30, 0.796],
    [35, 0.718],
    [40, 0.6517],
  ])('at %d °C against 20 °C is %d', (temperatureC, factor) => {
    expect(temperatureCorrection(temperatureC, 20)).toBeCloseTo(factor, 4);
  });

  // Ratios of the viscosities measured by Korson, Drost-Hansen, Millero, J. Phys. Chem. 73 (1969) 34.
  test.each([
    [5, 1.5162],
    [30, 0.7959],
  ])('at %d °C agrees with measured viscosities within 0.05 %%', (temperatureC, measured) => {
    expect(Math.abs(temperatureCorrection(temperatureC, 20) / measured - 1)).toBeLessThan(0.0005);
  });

  test('raises the permeability of cold water and lowers that of warm water', () => {
    expect(temperatureCorrection(8, 20)).toBeGreaterThan(1);
    expect(temperatureCorrection(28, 20)).toBeLessThan(1);
  });

  test('is 1 at the reference, and may be taken in two steps', () => {
    fc.assert(
      fc.property(temperature, temperature, temperature, (t, between, reference) => {
        expect(temperatureCorrection(t, t)).toBe(1);
        expect(temperatureCorrection(t, between) * temperatureCorrection(between, reference)).toBeCloseTo(temperatureCorrection(t, reference), 9);
      }),
      { numRuns: 50 },
    );
  });
});
