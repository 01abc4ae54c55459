import { describe, expect, test } from '@jest/globals';
import { localTime, overlap, visitSpan } from './visit-span.js';

const span = (onDay: string, startTime: string, minutes: number, timeZone: string) => {
  const { fromMs, toMs } = visitSpan({ onDay, startTime, minutes, timeZone });
  return `${new Date(fromMs).toISOString().slice(0, 16)} to ${new Date(toMs).toISOString().slice(0, 16)}`;
};

// Changes of the clock by the IANA time zone database: Europe on the last Sundays of March and October at 01:00 UTC; New York on 8 March and 1 November 2026.
describe('a visit takes place on the day of its site', () => {
  test.each([
    ['2026-12-01', '08:00', 90, 'Europe/Madrid', '2026-12-01T07:00 to 2026-12-01T08:30'],
    ['2026-12-01', '08:00', 90, 'America/Denver', '2026-12-01T15:00 to 2026-12-01T16:30'],
    ['2026-12-01', '08:00', 90, 'Pacific/Auckland', '2026-11-30T19:00 to 2026-11-30T20:30'],
    ['2026-12-01', '08:00', 90, 'Asia/Kathmandu', '2026-12-01T02:15 to 2026-12-01T03:45'],
  ])('%s %s for %d minutes in %s', (day, time, minutes, zone, expected) => {
    expect(span(day, time, minutes, zone)).toBe(expected);
  });

  test('on days when the clock changes, before and after the change', () => {
    expect(span('2026-03-29', '01:30', 60, 'Europe/Madrid')).toBe('2026-03-29T00:30 to 2026-03-29T01:30');
    expect(span('2026-03-29', '08:00', 60, 'Europe/Madrid')).toBe('2026-03-29T06:00 to 2026-03-29T07:00');
    expect(span('2026-10-25', '01:30', 120, 'Europe/Madrid')).toBe('2026-10-24T23:30 to 2026-10-25T01:30');
    expect(localTime(visitSpan({ onDay: '2026-10-25', startTime: '01:30', minutes: 120, timeZone: 'Europe/Madrid' }).toMs, 'Europe/Madrid').time).toBe('02:30');
  });

  test('a time that the clock leaves out is so much later, and of one that comes twice the first is meant', () => {
    expect(span('2026-03-29', '02:30', 60, 'Europe/Madrid')).toBe('2026-03-29T01:30 to 2026-03-29T02:30');
    expect(span('2026-11-01', '01:30', 60, 'America/New_York')).toBe('2026-11-01T05:30 to 2026-11-01T06:30');
  });
});

test('one visit after the other does not overlap', () => {
  const early = visitSpan({ onDay: '2026-12-01', startTime: '08:00', minutes: 60, timeZone: 'Europe/Madrid' });
  const next = visitSpan({ onDay: '2026-12-01', startTime: '08:00', minutes: 60, timeZone: 'Europe/London' });
  expect(overlap(early, next)).toBe(false);
  expect(overlap({ ...early, toMs: early.toMs + 1 }, next)).toBe(true);
  expect(overlap(next, { ...early, toMs: early.toMs + 1 })).toBe(true);
});
