import { describe, expect, test } from '@jest/globals';
import { JOB_STATES } from '../../shared/work.js';
import { checkMove } from './job-states.js';

const ROLES = ['manager', 'storekeeper', 'technician'] as const;

describe('moving a job on by hand', () => {
  test('never finishes it: its report does', () => {
    for (const role of ROLES) {
      for (const from of JOB_STATES) expect(checkMove(from, 'finished', role, 'done')).toMatchObject({ kind: 'refused', field: 'to' });
    }
  });

  test('is for managers alone where work is given up or taken up again', () => {
    expect(checkMove('open', 'dropped', 'manager', 'The skid is retired')).toEqual({ kind: 'allowed' });
    expect(checkMove('dropped', 'open', 'manager', 'It came back')).toEqual({ kind: 'allowed' });
    for (const role of ['storekeeper', 'technician'] as const) expect(checkMove('open', 'dropped', role, 'x').kind).toBe('refused');
  });

  test('lets a storekeeper say that a part is awaited, and that it came', () => {
    expect(checkMove('open', 'waiting', 'storekeeper', 'Seal kit, 2 weeks')).toEqual({ kind: 'allowed' });
    expect(checkMove('waiting', 'open', 'storekeeper', '')).toEqual({ kind: 'allowed' });
    expect(checkMove('open', 'under way', 'storekeeper', '')).toMatchObject({ message: 'From open you may move it to waiting' });
  });

  test('asks for the reason where one is needed', () => {
    expect(checkMove('open', 'dropped', 'manager', '  ')).toEqual({ kind: 'refused', field: 'note', message: 'say why it is dropped' });
  });

  test('says where a job stays for good', () => {
    expect(checkMove('finished', 'open', 'manager', 'again')).toMatchObject({ message: 'From finished you can move it nowhere' });
  });
});
