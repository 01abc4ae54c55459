import { describe, expect, test } from '@jest/globals';
import { doubtfulSignals } from './doubtful-signals.js';

const at = (moment: string | null) => (moment === null ? null : new Date(moment));
const on = (day: string, times: readonly (readonly [signal: string, from: string | null, to: string | null])[], zone = 'UTC') =>
  doubtfulSignals(
    times.map(([signal, from, to]) => ({ signal, fromAt: at(from), toAt: at(to) })),
    zone,
  )(day);

describe('a day of condition is marked', () => {
  test('from the day on which the doubt begins to the day on which it ends', () => {
    const times = [['tmp', '2026-03-01T08:00:00Z', '2026-09-01T08:00:00Z']] as const;
    expect(['2026-02-28', '2026-03-01', '2026-09-01', '2026-09-02'].map((day) => on(day, times).length)).toEqual([0, 1, 1, 0]);
  });

  test('since the record began, and until further notice', () => expect(on('2020-01-01', [['tmp', null, null]])).toEqual(['tmp']));

  test('by the calendar of the site', () => {
    const times = [['tmp', '2026-03-01T22:00:00Z', null]] as const;
    expect(on('2026-03-01', times, 'Asia/Tokyo')).toEqual([]);
    expect(on('2026-03-02', times, 'Asia/Tokyo')).toEqual(['tmp']);
  });

  test('once for each signal', () => {
    expect(
      on('2026-06-01', [
        ['tmp', null, null],
        ['temperature', null, null],
        ['tmp', '2026-05-01T00:00:00Z', null],
      ]),
    ).toEqual(['temperature', 'tmp']);
  });
});
