import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { fluxLmh, permeabilityLmhBar, resistancePerM } from './permeability.js';
import { temperatureCorrection } from './temperature-correction.js';

const positive = (min: number, max: number) => fc.double({ min, max, noNaN: true });

describe('flux', () => {
  test('of 150 m³/h over 3000 m² is 50 LMH (worked example of a membrane formula sheet, atlasofengineering.com)', () => {
    expect(fluxLmh(150, 3000)).toBe(50);
  });

  test('of 200,000 US gal/d over 4,000 ft² is 85 LMH (Univ. of Tennessee, membrane systems module; exactly 84.89)', () => {
    const flowM3h = (200_000 * 3.785411784e-3) / 24;
    expect(fluxLmh(flowM3h, 4000 * 0.3048 ** 2)).toBeCloseTo(84.89, 2);
  });
});

describe('permeability and resistance', () => {
  // 36 m³/h through 600 m² at 0.42 bar and 12 °C, calculated by another program from the same equations.
  const flux = fluxLmh(36, 600);

  test('of the worked example are 176.01 LMH/bar at 20 °C and 2.042e12 1/m', () => {
    expect(flux).toBe(60);
    expect(permeabilityLmhBar(flux, 42, 12, 12)).toBeCloseTo(142.86, 2);
    expect(permeabilityLmhBar(flux, 42, 12, 20)).toBeCloseTo(176.01, 1);
    expect(resistancePerM(flux, 42, 12) / 1e12).toBeCloseTo(2.042, 3);
  });

  test('divided by the correction instead of multiplied would be 115.95: the trap of the wrong direction', () => {
    expect(permeabilityLmhBar(flux, 42, 12, 20)).not.toBeCloseTo(115.95, 0);
    expect(142.857 / temperatureCorrection(12, 20)).toBeCloseTo(115.95, 1);
  });

  test('are tied at 20 °C: resistance is 3.594e14 over permeability', () => {
    for (const [permeability, resistance] of [
      [100, 3.594e12],
      [200, 1.797e12],
      [250, 1.4377e12],
      [300, 1.198e12],
    ] as const) {
      const tmpKpa = (60 / permeability) * 100;
      expect(Math.abs(resistancePerM(60, tmpKpa, 20) / resistance - 1)).toBeLessThan(2e-4);
    }
  });

  test('resistance and permeability say the same at every temperature', () => {
    fc.assert(
      fc.property(positive(10, 200), positive(5, 300), positive(1, 40), (fluxValue, tmpKpa, temperatureC) => {
        // 3.6e11 over the viscosity at 20 °C in Pa s
        const shortcut = 3.6e11 / 1.0015673e-3 / permeabilityLmhBar(fluxValue, tmpKpa, temperatureC, 20);
        expect(Math.abs(resistancePerM(fluxValue, tmpKpa, temperatureC) / shortcut - 1)).toBeLessThan(1e-6);
      }),
      { numRuns: 50 },
    );
  });

  test('30 % less permeability needs 42.9 % more pressure for the same flux, half of it twice the pressure', () => {
    const pressureFor = (permeability: number) => (60 / permeability) * 100;
    expect(pressureFor(70) / pressureFor(100)).toBeCloseTo(1.4286, 4);
    expect(permeabilityLmhBar(60, 2 * 40, 20, 20)).toBeCloseTo(permeabilityLmhBar(60, 40, 20, 20) / 2, 12);
  });
});
