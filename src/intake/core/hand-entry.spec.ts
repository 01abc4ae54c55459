import { describe, expect, test } from '@jest/globals';
import { checkHandEntry, type HandEntry } from './hand-entry.js';
import type { SkidMachines } from './skid-machines.js';

const machines: SkidMachines = {
  positions: [{ id: 'p', name: 'Feed pump', kind: 'feed pump', ended: false }],
  meters: [{ id: 'hours', kind: 'run hours', modulus: 100_000, positionId: 'p', positionName: 'Feed pump', ended: false }],
  tanks: [{ id: 'tank', name: 'Hypochlorite', chemical: 'NaOCl', heightM: 1.2, ended: false }],
};
const pressure = { signal: 'feed_pressure', value: 1.85, unit: 'bar', smallestDivision: 0.05, written: '1.85', column: 'values/0' } as const;
const entry = (changes: Partial<HandEntry>): HandEntry => ({
  minutesSinceBackwash: 20,
  note: '',
  readBy: 'Ada',
  values: [pressure],
  meters: [],
  tanks: [],
  ...changes,
});
const faultsOf = (changes: Partial<HandEntry>) => {
  const check = checkHandEntry(entry(changes), machines);
  return check.kind === 'faults' ? check.faults.map(({ column, message }) => `${column}: ${message}`) : [];
};

describe('a reading by hand', () => {
  test('is stored in stored units, with what was entered and half the smallest division', () => {
    expect(checkHandEntry(entry({}), machines)).toEqual({
      kind: 'facts',
      facts: { values: [{ signal: 'feed_pressure', value: 185, entered: 1.85, enteredUnit: 'bar', readingError: 2.5 }], meters: [], tanks: [] },
    });
  });

  test('of meters and tanks alone is a reading too', () => {
    const meters = [{ meterId: 'hours', value: 12, column: 'meters/0' }];
    const tanks = [{ tankId: 'tank', levelM: 0.8, strengthGL: null, readingErrorM: 0.005, column: 'tanks/0' }];
    expect(checkHandEntry(entry({ values: [], meters, tanks }), machines).kind).toBe('facts');
  });

  test.each<[string, Partial<HandEntry>]>([
    ['null: holds no reading at all', { values: [] }],
    ['minutesSinceBackwash: is not between 0 and 10080 minutes', { minutesSinceBackwash: -1 }],
    ['values/0: is not possible for feed pressure, which lies between -100 and 1600 kPa', { values: [{ ...pressure, value: 185 }] }],
    ['values/0: Cel does not measure a pressure', { values: [{ ...pressure, unit: 'Cel' }] }],
    ['values/1: comes twice in one reading', { values: [pressure, { ...pressure, column: 'values/1' }] }],
    ['values/0: belongs to a machine: enter it as a meter of that machine', { values: [{ ...pressure, signal: 'run_hours', unit: 'h' }] }],
    ['meters/0: is no meter of this skid', { meters: [{ meterId: 'other', value: 1, column: 'meters/0' }] }],
    ['meters/0: is more than this meter can show', { meters: [{ meterId: 'hours', value: 100_000, column: 'meters/0' }] }],
    ['meters/0: is not possible for a meter', { meters: [{ meterId: 'hours', value: -1, column: 'meters/0' }] }],
    ['tanks/0: is no tank of this skid', { tanks: [{ tankId: 'x', levelM: 1, strengthGL: null, readingErrorM: 0, column: 'tanks/0' }] }],
    [
      'tanks/0: is not between empty and the height of the tank: read the stick again, and look at its unit',
      { tanks: [{ tankId: 'tank', levelM: 80, strengthGL: null, readingErrorM: 0, column: 'tanks/0' }] },
    ],
    ['tanks/0: is not a strength between 0 and 2000 g/L', { tanks: [{ tankId: 'tank', levelM: 1, strengthGL: 1e6, readingErrorM: 0, column: 'tanks/0' }] }],
  ])('says %s', (expected, changes) => expect(faultsOf(changes)).toEqual([expected]));

  test('names all that is wrong at once', () => {
    expect(faultsOf({ minutesSinceBackwash: -1, values: [{ ...pressure, value: 185 }] })).toHaveLength(2);
  });
});
