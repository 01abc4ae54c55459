import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { fromStored, UNITS, type UnitCode } from '../../shared/units.js';
import { measuredValue, unitFits } from './measured-value.js';

const signals = Object.keys(SIGNALS) as SignalCode[];
const units = Object.keys(UNITS) as UnitCode[];

describe('a measured value', () => {
  test('is stored in the unit of its signal', () => {
    expect(measuredValue('filtrate_flow', 60, 'L/s')).toEqual({ kind: 'measured', value: 216 });
    expect(measuredValue('temperature', 50, '[degF]')).toEqual({ kind: 'measured', value: 10 });
  });

  test('shows a unit error by its size: kPa taken for bar', () => {
    expect(measuredValue('feed_pressure', 180, 'bar')).toEqual({
      kind: 'impossible',
      reason: 'is not possible for feed pressure, which lies between -100 and 1600 kPa',
    });
  });

  test('is none in a unit of another dimension', () => {
    expect(measuredValue('filtrate_flow', 1, 'm3')).toEqual({ kind: 'impossible', reason: 'm3 does not measure a flow' });
  });

  test('is the same value in whichever unit of the dimension it is given', () => {
    fc.assert(
      fc.property(fc.constantFrom(...signals), fc.constantFrom(...units), fc.double({ min: 0, max: 1, noNaN: true }), (signal, unit, share) => {
        fc.pre(unitFits(signal, unit));
        const [low, high] = SIGNALS[signal].plausible;
        const stored = low + (0.01 + 0.98 * share) * (high - low);
        const measured = measuredValue(signal, fromStored(stored, unit), unit);
        expect(measured.kind).toBe('measured');
        if (measured.kind === 'measured') expect(Math.abs(measured.value - stored)).toBeLessThanOrEqual(1e-9 * Math.max(1, Math.abs(stored)));
      }),
      { numRuns: 100 },
    );
  });
});
