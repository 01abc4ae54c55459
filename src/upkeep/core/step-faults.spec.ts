import { describe, expect, test } from '@jest/globals';
import { type EnteredStep, stepFaults } from './step-faults.js';

describe('the steps of a sheet', () => {
  test.each<[string, EnteredStep, string | undefined]>([
    ['a step to do is fine', { kind: 'do' }, undefined],
    ['a reading of a signal in a unit of it is fine', { kind: 'reading', signal: 'tmp', unit: 'bar', low: 0.2, high: 0.8 }, undefined],
    ['a reading of something else in any unit is fine', { kind: 'reading', unit: 'MOhm', low: 1 }, undefined],
    ['a check has no limits', { kind: 'check', high: 3 }, 'high'],
    ['a reading needs a unit', { kind: 'reading', signal: 'tmp' }, 'unit'],
    ['a reading is read in units of its signal', { kind: 'reading', signal: 'tmp', unit: 'MOhm' }, 'unit'],
    ['the lower limit is the lower', { kind: 'reading', unit: 'kPa', low: 5, high: 3 }, 'low'],
  ])('%s', (_, step, field) => expect(stepFaults([{ kind: 'do' }, step])).toMatchObject(field === undefined ? [] : [{ at: 1, field }]));
});
