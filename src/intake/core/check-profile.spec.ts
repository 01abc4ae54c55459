import { describe, expect, test } from '@jest/globals';
import { faultsOfProfile } from './check-profile.js';
import { type LogProfileDefinition, PLAIN_PROFILE, type ProfileColumn, type ProfileKind } from './log-profile.js';
import type { SkidMachines } from './skid-machines.js';

const machines: SkidMachines = { positions: [{ id: 'pump', name: 'Feed pump', kind: 'feed pump', ended: false }], meters: [], tanks: [] };
const column = (as: string, unit: ProfileColumn['unit'], more: Partial<ProfileColumn> = {}): ProfileColumn => ({
  column: `the ${as}`,
  as,
  unit,
  positionId: null,
  smallestDivision: null,
  ...more,
});
const faults = (kind: ProfileKind, changes: Partial<LogProfileDefinition>) =>
  faultsOfProfile(kind, { ...PLAIN_PROFILE, columns: [column('tmp', 'mbar')], ...changes }, machines).map(({ pointer, message }) => `${pointer}: ${message}`);

describe('a log profile', () => {
  test('may name signals in any unit of their dimension, formats and zones that exist, and machines of the skid', () => {
    const columns = [column('feed_pressure', '[psi]'), column('running', 'state', { positionId: 'pump' }), column('temperature', '[degF]')];
    expect(faults('samples', { columns, timeFormat: 'dd.MM.yyyy HH:mm', timeZone: 'Asia/Kolkata', decimal: ',', delimiter: ';' })).toEqual([]);
    expect(faults('cycles', { columns: [column('ended_at', null), column('flow_m3h', 'L/s')] })).toEqual([]);
    expect(faults('events', { columns: [] })).toEqual([]);
  });

  test.each<[string, ProfileKind, Partial<LogProfileDefinition>]>([
    ['timeFormat: "HH:mm" is no format with year, month and day', 'samples', { timeFormat: 'HH:mm' }],
    ['timeZone: "Mars/Crater" is no time zone, such as Europe/Berlin', 'samples', { timeZone: 'Mars/Crater' }],
    ['decimal: a comma cannot be both the decimal mark and between cells', 'samples', { decimal: ',', delimiter: ',' }],
    ['columns: no column is named', 'samples', { columns: [] }],
    ['columns/0/as: "pressure" is no signal', 'samples', { columns: [column('pressure', 'bar')] }],
    ['columns/0/unit: Cel does not measure a pressure', 'samples', { columns: [column('tmp', 'Cel')] }],
    ['columns/0/unit: tmp needs a unit', 'samples', { columns: [column('tmp', null)] }],
    ['columns/1/as: tmp comes twice', 'samples', { columns: [column('tmp', 'bar'), column('tmp', 'bar', { column: 'other' })] }],
    ['columns/1/column: "x" is named twice', 'samples', { columns: [column('tmp', 'bar', { column: 'x' }), column('temperature', 'Cel', { column: 'x' })] }],
    ['columns/0/column: "at" is named twice', 'samples', { columns: [column('tmp', 'bar', { column: 'at' })] }],
    ['columns/0/positionId: running belongs to a machine: say which', 'samples', { columns: [column('running', 'state')] }],
    ['columns/0/positionId: tmp belongs to the skid as a whole', 'samples', { columns: [column('tmp', 'bar', { positionId: 'pump' })] }],
    ['columns/0/positionId: is no position of this skid', 'samples', { columns: [column('running', 'state', { positionId: 'x' })] }],
    ['columns/0/as: "flow" is no field of cycles', 'cycles', { columns: [column('flow', 'm3/h')] }],
    ['columns/0/unit: ended_at is text and has no unit', 'cycles', { columns: [column('ended_at', 's')] }],
    ['columns/0/as: run_hours belongs to a machine, whose meters are on the sheet anyway', 'hand', { columns: [column('run_hours', 'h')] }],
  ])('%s', (expected, kind, changes) => expect(faults(kind, changes)).toEqual([expected]));
});
