import { describe, expect, test } from '@jest/globals';
import { readEvent } from './event-row.js';
import type { SkidMachines } from './skid-machines.js';

const machines: SkidMachines = {
  positions: [{ id: 'pump', name: 'Feed pump', kind: 'feed pump', ended: false }],
  meters: [
    { id: 'hours', kind: 'run hours', modulus: null, positionId: 'pump', positionName: 'Feed pump', ended: false },
    { id: 'starts', kind: 'starts', modulus: null, positionId: 'pump', positionName: 'Feed pump', ended: false },
  ],
  tanks: [{ id: 'tank', name: 'Bleach', chemical: 'NaOCl', heightM: 1, ended: false }],
};
const read = (values: Record<string, string | number>) => readEvent({ values, faults: [] }, machines);

describe('events in a file', () => {
  test.each<[Record<string, string | number>, object]>([
    [
      { event: 'cip', chemical: 'NaOCl', strength_mg_l: 500, contact_minutes: 60 },
      { kind: 'clean', clean: 'CIP', chemical: 'NaOCl', strengthMgL: 500, contactMinutes: 60, note: '' },
    ],
    [
      { event: 'reading', position: 'Feed pump', meter: 'Run hours', value: 812.5 },
      { kind: 'reading', meterId: 'hours', value: 812.5 },
    ],
    [
      { event: 'exchange', position: 'Feed pump', meter: 'starts', old_final: 900, value: 0 },
      { kind: 'exchange', meterId: 'starts', oldFinal: 900, value: 0 },
    ],
    [
      { event: 'Dip', tank: 'Bleach', level_m: 0.62 },
      { kind: 'dip', tankId: 'tank', levelM: 0.62, strengthGL: null, readingErrorM: 0.005 },
    ],
    [
      { event: 'delivery', tank: 'Bleach', volume_l: 200, lot: 'A7' },
      { kind: 'delivery', tankId: 'tank', volumeL: 200, strengthGL: null, lot: 'A7' },
    ],
    [
      { event: 'service', task: 'Integrity test' },
      { kind: 'service', positionId: null, task: 'Integrity test', minutes: null, note: '' },
    ],
    [
      { event: 'fitted', position: 'Feed pump', item: 'SEAL-1', reason: 'leak' },
      { kind: 'fitted', positionId: 'pump', itemCode: 'SEAL-1', serialNumber: null, lot: null, setCount: 1, reason: 'leak' },
    ],
  ])('%j', (values, event) => expect(read(values)).toEqual({ kind: 'event', event, by: null }));

  test.each<[Record<string, string | number>, string[]]>([
    [{}, ['event is missing for an event of this kind']],
    [{ event: 'party' }, ['event is none of CEB, CIP, reading, exchange, dip, delivery, service, fitted, removed']],
    [{ event: 'CEB' }, ['chemical is missing for an event of this kind']],
    [{ event: 'reading', position: 'Pump', value: 1 }, ['position has no meter on this skid']],
    [{ event: 'reading', position: 'Feed pump', value: 1 }, ['meter is missing: the position has more than one']],
    [{ event: 'dip', tank: 'Acid' }, ['tank is the name of no tank of this skid', 'level_m is missing for an event of this kind']],
    [{ event: 'dip', tank: 'Bleach', level_m: 62 }, ['levelM is not between empty and the height of the tank: read the stick again, and look at its unit']],
  ])('refused: %j', (values, expected) => {
    const result = read(values);
    expect(result.kind === 'faults' && result.faults.map(({ column, message }) => `${column} ${message}`)).toEqual(expected);
  });
});
