import { describe, expect, test } from '@jest/globals';
import { type EventFact, faultsOfEvent } from './event.js';
import type { SkidMachines } from './skid-machines.js';

const machines: SkidMachines = {
  positions: [{ id: 'pump', name: 'Feed pump', kind: 'feed pump', ended: false }],
  meters: [{ id: 'hours', kind: 'run hours', modulus: 10_000, positionId: 'pump', positionName: 'Feed pump', ended: false }],
  tanks: [{ id: 'tank', name: 'Caustic', chemical: 'NaOH', heightM: 1, ended: false }],
};
const good: EventFact[] = [
  { kind: 'clean', clean: 'CIP', chemical: 'citric acid', strengthMgL: 20_000, contactMinutes: 120, note: '' },
  { kind: 'reading', meterId: 'hours', value: 9_999 },
  { kind: 'exchange', meterId: 'hours', oldFinal: 20_000, value: 0 },
  { kind: 'dip', tankId: 'tank', levelM: 1.01, strengthGL: null, readingErrorM: 0.005 },
  { kind: 'delivery', tankId: 'tank', volumeL: 200, strengthGL: 450, lot: 'L-7' },
  { kind: 'service', positionId: null, task: 'Integrity test', minutes: 45, note: '' },
  { kind: 'fitted', positionId: 'pump', itemCode: 'SEAL-1', serialNumber: null, lot: null, setCount: 1, reason: 'leak' },
  { kind: 'removed', positionId: 'pump', reason: null },
];

describe('events', () => {
  test.each(good)('can be: %j', (event) => expect(faultsOfEvent(event, machines)).toEqual([]));

  test.each<[string, EventFact]>([
    ['strengthMgL is not a strength between 0 and 200000 mg/L', { ...(good[0] as EventFact & { kind: 'clean' }), strengthMgL: -1 }],
    ['chemical is empty', { ...(good[0] as EventFact & { kind: 'clean' }), chemical: ' ' }],
    ['meterId is no meter of this skid', { kind: 'reading', meterId: 'other', value: 1 }],
    ['value is more than this meter can show', { kind: 'reading', meterId: 'hours', value: 10_000 }],
    [
      'levelM is not between empty and the height of the tank: read the stick again, and look at its unit',
      { kind: 'dip', tankId: 'tank', levelM: 1.5, strengthGL: null, readingErrorM: 0 },
    ],
    ['tankId is no tank of this skid', { kind: 'delivery', tankId: 'x', volumeL: 1, strengthGL: null, lot: null }],
    ['volumeL is not a volume above 0 and up to 1000000 L', { kind: 'delivery', tankId: 'tank', volumeL: 0, strengthGL: null, lot: null }],
    ['positionId is no position of this skid', { kind: 'removed', positionId: 'x', reason: null }],
    ['task is empty', { kind: 'service', positionId: 'pump', task: '', minutes: null, note: '' }],
    ['note holds a character that cannot be stored (U+0000)', { kind: 'service', positionId: 'pump', task: 'x', minutes: null, note: '\0' }],
    ['task is longer than 200 characters', { kind: 'service', positionId: 'pump', task: 'x'.repeat(201), minutes: null, note: '' }],
  ])('cannot be: %s', (expected, event) => {
    expect(faultsOfEvent(event, machines).map(({ column, message }) => `${column} ${message}`)).toEqual([expected]);
  });
});
