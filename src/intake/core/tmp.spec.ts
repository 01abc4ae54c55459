import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { type MembranePressures, type TmpBasis, transmembraneKpa } from './tmp.js';

const deadEnd: TmpBasis = { scheme: 'dead-end', tmpFrom: 'pressures', feedHeightM: null, filtrateHeightM: null, concentrateHeightM: null };
const crossFlow: TmpBasis = { ...deadEnd, scheme: 'cross-flow' };
const submerged: TmpBasis = { ...deadEnd, scheme: 'submerged' };
const none: MembranePressures = { feedKpa: null, filtrateKpa: null, concentrateKpa: null, tmpKpa: null };

const kpa = (pressures: Partial<MembranePressures>, basis: TmpBasis) => {
  const result = transmembraneKpa({ ...none, ...pressures }, basis);
  return result.kind === 'transmembrane' ? result.tmpKpa : result.pressure;
};

describe('transmembrane pressure', () => {
  test('dead-end is feed less filtrate', () => {
    expect(kpa({ feedKpa: 120, filtrateKpa: 78 }, deadEnd)).toBe(42);
  });

  test('cross-flow takes the mean of feed and concentrate: 1.80 and 1.60 bar over 0.90 bar are 0.80, not 0.90 and not 0.70', () => {
    expect(kpa({ feedKpa: 180, concentrateKpa: 160, filtrateKpa: 90 }, crossFlow)).toBe(80);
  });

  test('submerged under suction is the head of the water less a negative reading', () => {
    expect(kpa({ filtrateKpa: -25 }, { ...submerged, feedHeightM: 1 })).toBeCloseTo(25 + 9.79, 2);
    expect(kpa({ filtrateKpa: -25 }, submerged)).toBe(25);
    expect(kpa({ feedKpa: 12, filtrateKpa: -25 }, submerged)).toBe(37);
  });

  test('a transmitter that hangs one metre higher reads 9.79 kPa less', () => {
    expect(kpa({ feedKpa: 120, filtrateKpa: 78 }, { ...deadEnd, filtrateHeightM: 1 })).toBeCloseTo(42 - 9.79, 2);
    expect(kpa({ feedKpa: 120, filtrateKpa: 78 }, { ...deadEnd, feedHeightM: 1 })).toBeCloseTo(42 + 9.79, 2);
    expect(kpa({ feedKpa: 180, concentrateKpa: 160, filtrateKpa: 90 }, { ...crossFlow, concentrateHeightM: 2 })).toBeCloseTo(80 + 9.79, 2);
  });

  test('measured directly, it is taken as it is, whatever the other transmitters say', () => {
    expect(kpa({ tmpKpa: 33, feedKpa: 120, filtrateKpa: 78 }, { ...deadEnd, tmpFrom: 'measured', feedHeightM: 3 })).toBe(33);
  });

  test('names the pressure that is missing', () => {
    expect(kpa({ filtrateKpa: 78 }, deadEnd)).toBe('feed');
    expect(kpa({ feedKpa: 120 }, deadEnd)).toBe('filtrate');
    expect(kpa({ feedKpa: 120, filtrateKpa: 78 }, crossFlow)).toBe('concentrate');
    expect(kpa({ feedKpa: 120, filtrateKpa: 78 }, { ...deadEnd, tmpFrom: 'measured' })).toBe('transmembrane');
    expect(kpa({ feedKpa: 3 }, submerged)).toBe('filtrate');
  });

  test('does not depend on the datum from which the heights are measured', () => {
    const height = fc.double({ min: -5, max: 5, noNaN: true });
    fc.assert(
      fc.property(height, height, height, height, (feedHeightM, filtrateHeightM, concentrateHeightM, shift) => {
        const pressures = { feedKpa: 180, concentrateKpa: 160, filtrateKpa: 90 };
        const one = kpa(pressures, { ...crossFlow, feedHeightM, filtrateHeightM, concentrateHeightM });
        const other = kpa(pressures, {
          ...crossFlow,
          feedHeightM: feedHeightM + shift,
          filtrateHeightM: filtrateHeightM + shift,
          concentrateHeightM: concentrateHeightM + shift,
        });
        expect(other).toBeCloseTo(one as number, 9);
      }),
      { numRuns: 50 },
    );
  });
});
