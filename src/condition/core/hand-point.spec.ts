import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { comparableRange, permeabilityRange, thirdOfCycle, tmpErrorKpa } from './hand-point.js';

const errors = { feedKpa: 2, filtrateKpa: 2, concentrateKpa: 2, tmpKpa: 0.5 };
const read = { flowM3h: 36, tmpKpa: 42, temperatureC: 12 };

describe('the reading error of a transmembrane pressure', () => {
  test('adds up by the weight of each gauge', () => {
    expect(tmpErrorKpa(errors, { scheme: 'dead-end', tmpFrom: 'pressures' })).toBeCloseTo(2 * Math.SQRT2, 12);
    expect(tmpErrorKpa(errors, { scheme: 'cross-flow', tmpFrom: 'pressures' })).toBeCloseTo(2 * Math.sqrt(1.5), 12);
    expect(tmpErrorKpa({ ...errors, feedKpa: null }, { scheme: 'submerged', tmpFrom: 'pressures' })).toBe(2);
    expect(tmpErrorKpa(errors, { scheme: 'dead-end', tmpFrom: 'measured' })).toBe(0.5);
  });
});

describe('the range of a permeability read from gauges', () => {
  test('follows from half a division of each gauge', () => {
    // 0.5/36 = 1.39 %, 2.83/42 = 6.73 %, viscosity of 11.5 over 12 °C = 1.35 %: together 7.0 %
    expect(permeabilityRange(176, read, { flowM3h: 0.5, tmpKpa: 2 * Math.SQRT2, temperatureC: 0.5 })).toEqual({
      low: expect.closeTo(176 * 0.93, 0),
      high: expect.closeTo(176 * 1.07, 0),
    });
  });

  test('is a point with gauges that have no error, and is never below zero', () => {
    expect(permeabilityRange(176, read, { flowM3h: 0, tmpKpa: 0, temperatureC: 0 })).toEqual({ low: 176, high: 176 });
    expect(permeabilityRange(176, read, { flowM3h: 40, tmpKpa: 0, temperatureC: 0 })).toMatchObject({ low: 0 });
  });

  test('cannot be said where the marks of the gauges lie as far apart as the pressure', () => {
    expect(permeabilityRange(176, read, { flowM3h: 0.5, tmpKpa: 42, temperatureC: 0 })).toEqual({ kind: 'not-readable' });
    expect(permeabilityRange(0, { ...read, flowM3h: 0 }, { flowM3h: 0.5, tmpKpa: 1, temperatureC: 0 })).toEqual({ kind: 'not-readable' });
  });

  test('holds the value, and a coarser gauge never narrows it', () => {
    const share = fc.double({ min: 0, max: 0.9, noNaN: true });
    fc.assert(
      fc.property(share, share, fc.double({ min: 0, max: 3, noNaN: true }), (flow, tmp, temperatureC) => {
        const error = { flowM3h: 36 * flow, tmpKpa: 42 * tmp, temperatureC };
        const fine = permeabilityRange(176, read, error);
        const coarse = permeabilityRange(176, read, { ...error, tmpKpa: error.tmpKpa + 1 });
        if ('kind' in fine || 'kind' in coarse) throw new Error('both are readable');
        expect(fine.low <= 176 && fine.high >= 176).toBe(true);
        expect(coarse.low <= fine.low && coarse.high >= fine.high).toBe(true);
      }),
      { numRuns: 40 },
    );
  });
});

describe('readings at a like point of the cycle', () => {
  test.each([
    [0, 30, 'first'],
    [9.9, 30, 'first'],
    [10, 30, 'middle'],
    [20, 30, 'last'],
    [30, 30, 'last'],
    [31, 30, null],
    [null, 30, null],
    [12, null, null],
  ] as const)('%p of %p minutes is the %p third', (minutes, length, third) => {
    expect(thirdOfCycle(minutes, length)).toBe(third);
  });

  test('compare as they are; others get a wider range', () => {
    const range = { low: 190, high: 210 };
    expect(comparableRange(range, 'last', 'last')).toBe(range);
    expect(comparableRange(range, 'first', 'last')).toEqual({ low: 171, high: expect.closeTo(231, 9) });
    expect(comparableRange(range, null, null)).toEqual(comparableRange(range, 'first', 'last'));
  });
});
