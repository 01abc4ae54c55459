import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { CARTRIDGE_DEFAULTS, cartridgeDpAtReference } from './cartridge-dp.js';

const basis = { ...CARTRIDGE_DEFAULTS, referenceFlowM3h: 18 };
const dpKpa = (measured: Parameters<typeof cartridgeDpAtReference>[0], on = basis as Parameters<typeof cartridgeDpAtReference>[1]) => {
  const result = cartridgeDpAtReference(measured, on);
  return result.kind === 'pressure-drop' ? result.dpKpa : null;
};

describe('pressure drop of a cartridge at reference flow and temperature', () => {
  // Calculated from the same equation by another program.
  test('0.45 bar at 14 m³/h and 8 °C is 0.4185 bar at 18 m³/h and 20 °C', () => {
    expect(dpKpa({ dpKpa: 45, flowM3h: 14, temperatureC: 8 })).toBeCloseTo(41.85, 2);
    expect(dpKpa({ dpKpa: 45, flowM3h: 14, temperatureC: 20 })).toBeCloseTo(57.86, 2);
  });

  test('follows a published element: 0.73 psi at 6.6 gpm gives 0.973 psi at 8.8 gpm by the straight law, 1.0 by the exponent fitted to it', () => {
    const element = { ...basis, referenceFlowM3h: 8.8 };
    expect(dpKpa({ dpKpa: 0.73, flowM3h: 6.6, temperatureC: 20 }, element)).toBeCloseTo(0.973, 3);
    expect(dpKpa({ dpKpa: 0.73, flowM3h: 6.6, temperatureC: 20 }, { ...element, flowExponent: 1.094 })).toBeCloseTo(1, 3);
  });

  test('takes the housing out of the flow law and puts it back at the reference', () => {
    // k = 0.05: 20 kPa at 20 m³/h is all housing; at 10 m³/h the housing takes 5 of 15 kPa, the element's 10 double.
    const housing = { ...basis, referenceFlowM3h: 20, housingKpaPerFlowSquared: 0.05 };
    expect(dpKpa({ dpKpa: 15, flowM3h: 10, temperatureC: 20 }, housing)).toBeCloseTo(2 * 10 + 20, 9);
  });

  test('is not said below half of the reference flow, nor without flow', () => {
    expect(cartridgeDpAtReference({ dpKpa: 20, flowM3h: 8.9, temperatureC: 20 }, basis)).toEqual({ kind: 'low-flow', leastM3h: 9 });
    expect(cartridgeDpAtReference({ dpKpa: 20, flowM3h: 0, temperatureC: 20 }, { ...basis, leastFlowShare: 0 }).kind).toBe('low-flow');
    expect(dpKpa({ dpKpa: 20, flowM3h: 9, temperatureC: 20 })).toBeCloseTo(40, 9);
  });

  test('changes nothing at the reference itself, and scales with the unit of pressure', () => {
    fc.assert(
      fc.property(fc.double({ min: 1, max: 200, noNaN: true }), fc.double({ min: 9, max: 40, noNaN: true }), (kpa, flowM3h) => {
        expect(dpKpa({ dpKpa: kpa, flowM3h: 18, temperatureC: 20 })).toBeCloseTo(kpa, 9);
        const one = dpKpa({ dpKpa: kpa, flowM3h, temperatureC: 9 }) ?? Number.NaN;
        expect(dpKpa({ dpKpa: kpa / 100, flowM3h, temperatureC: 9 })).toBeCloseTo(one / 100, 9);
      }),
      { numRuns: 50 },
    );
  });
});
