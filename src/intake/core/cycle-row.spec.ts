import { describe, expect, test } from '@jest/globals';
import { readCycle } from './cycle-row.js';
import { timeReader } from './read-time.js';

const NOW = Date.parse('2026-11-25T00:00:00Z');
const START = Date.parse('2026-05-01T06:00:00Z');
const readTime = timeReader('iso', 'Europe/Berlin', NOW);
const read = (values: Record<string, string | number>, startMs = START) => {
  if (readTime === undefined) throw new Error('no reader');
  return readCycle({ values, faults: [] }, startMs, false, readTime);
};
const faults = (values: Record<string, string | number>) => {
  const result = read(values);
  return result.kind === 'faults' ? result.faults.map(({ column, message }) => `${column} ${message}`) : [];
};

describe('a reported cycle', () => {
  test('has its end from its minutes, or its minutes from its end', () => {
    expect(read({ filtration_minutes: 30 })).toMatchObject({ cycle: { endedAt: new Date(START + 1_800_000), filtrationMinutes: 30 } });
    expect(read({ ended_at: '2026-05-01T08:30' })).toMatchObject({ cycle: { endedAt: new Date(START + 1_800_000), filtrationMinutes: 30 } });
  });

  test('keeps what the plant measures; null is what it does not measure', () => {
    expect(read({ filtration_minutes: 30, flow_m3h: 38, tmp_kpa: 55 })).toMatchObject({
      cycle: { flowM3h: 38, tmpKpa: 55, temperatureC: null, quality: 0, byHand: false },
    });
  });

  test.each<[string, Record<string, string | number>]>([
    ['filtration_minutes neither the end nor the minutes in filtration are there', {}],
    ['filtration_minutes is not between 0 and 20160 minutes', { filtration_minutes: 0 }],
    ['filtration_minutes is not between 0 and 20160 minutes', { filtration_minutes: 99_999 }],
    ['ended_at is not after the start', { ended_at: '2026-05-01T07:00', filtration_minutes: 30 }],
    ['filtration_minutes is longer than from start to end', { ended_at: '2026-05-01T08:10', filtration_minutes: 30 }],
    ['feed_kpa is not possible for feed pressure, which lies between -100 and 1600 kPa', { filtration_minutes: 30, feed_kpa: 18_000 }],
    ['filtrate_m3 is not possible for the filtrate of one cycle', { filtration_minutes: 30, filtrate_m3: -1 }],
  ])('is refused: %s', (expected, values) => expect(faults(values)).toEqual([expected]));

  test('ends in the second pass of the doubled hour where the first is too early', () => {
    const startMs = Date.parse('2026-10-25T00:40:00Z'); // 02:40 summer time
    expect(read({ ended_at: '2026-10-25T02:10', filtration_minutes: 30 }, startMs)).toMatchObject({ cycle: { endedAt: new Date('2026-10-25T01:10:00Z') } });
    expect(read({ ended_at: '2026-10-25T02:50' }, startMs)).toMatchObject({ cycle: { endedAt: new Date('2026-10-25T00:50:00Z') } });
  });
});
