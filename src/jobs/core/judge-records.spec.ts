import { describe, expect, test } from '@jest/globals';
import { judgeRecords, type RecordsToJudge } from './judge-records.js';

const judged = (records: Partial<RecordsToJudge>) =>
  judgeRecords({
    startedAt: '2026-11-05T08:00:00Z',
    finishedAt: '2026-11-05T09:00:00Z',
    partsFitted: [],
    partsRemoved: [],
    integrityTests: [],
    fibreRepairs: [],
    calibrations: [],
    meters: [],
    ...records,
  }).map(({ pointer }) => pointer);

describe('the records of a report', () => {
  test('lie within the work, as far as two clocks agree', () => {
    expect(judged({ partsRemoved: [{ at: '2026-11-05T08:30:00Z' }, { at: '2026-11-05T09:04:00Z' }, { at: null }, {}] })).toEqual([]);
    expect(judged({ partsFitted: [{ at: '2099-01-01T00:00:00Z', setCount: 1 }], calibrations: [{ at: '2026-11-04T08:30:00Z' }] })).toEqual([
      '#/partsFitted/0/at',
      '#/calibrations/0/at',
    ]);
  });

  test('name one piece by a serial number, and sets by their count', () => {
    expect(judged({ partsFitted: [{ serialNumber: 'S-1', setCount: 1 }, { setCount: 7 }] })).toEqual([]);
    expect(judged({ partsFitted: [{ serialNumber: 'S-1', setCount: 7 }] })).toEqual(['#/partsFitted/0/setCount']);
  });

  test('read a meter once', () => {
    expect(judged({ meters: [{ meterId: 'a' }, { meterId: 'b' }, { meterId: 'a' }] })).toEqual(['#/meters/2/meterId']);
  });
});
