import { describe, expect, test } from '@jest/globals';
import { digestDayOf } from './digest-day.js';

const daily = { digest: 'daily', hour: 7, timeZone: 'Europe/Madrid' } as const;

describe('the day of a digest', () => {
  test('begins at the hour that the person chose, on the clock of where they are', () => {
    expect(digestDayOf(daily, null, new Date('2026-11-25T05:59:00Z'))).toBeNull();
    expect(digestDayOf(daily, null, new Date('2026-11-25T06:00:00Z'))).toBe('2026-11-25');
    expect(digestDayOf({ ...daily, timeZone: 'America/Lima' }, null, new Date('2026-11-25T06:00:00Z'))).toBeNull();
    expect(digestDayOf({ ...daily, timeZone: 'Pacific/Auckland', hour: 6 }, null, new Date('2026-11-25T17:00:00Z'))).toBe('2026-11-26');
  });

  test('is missed rather than caught up in the afternoon', () => {
    expect(digestDayOf(daily, null, new Date('2026-11-25T08:59:00Z'))).toBe('2026-11-25');
    expect(digestDayOf(daily, null, new Date('2026-11-25T09:00:00Z'))).toBeNull();
  });

  test('is had once', () => {
    expect(digestDayOf(daily, '2026-11-25', new Date('2026-11-25T06:30:00Z'))).toBeNull();
    expect(digestDayOf(daily, '2026-11-24', new Date('2026-11-25T06:30:00Z'))).toBe('2026-11-25');
  });

  test('is a Monday where it is weekly, and none where it is off', () => {
    const days = Array.from({ length: 7 }, (_, n) => new Date(Date.UTC(2026, 10, 23 + n, 6)));
    expect(days.map((now) => digestDayOf({ ...daily, digest: 'weekly' }, null, now))).toEqual(['2026-11-23', null, null, null, null, null, null]);
    expect(days.map((now) => digestDayOf({ ...daily, digest: 'off' }, null, now))).toEqual(Array.from({ length: 7 }, () => null));
  });

  test('keeps its hour when clocks change, and makes up for one that is left out', () => {
    expect(digestDayOf(daily, null, new Date('2026-10-24T05:00:00Z'))).toBe('2026-10-24');
    expect(digestDayOf(daily, null, new Date('2026-10-26T05:00:00Z'))).toBeNull();
    expect(digestDayOf({ ...daily, hour: 2 }, null, new Date('2027-03-28T01:00:00Z'))).toBe('2027-03-28'); // 03:00: there is no 02:00
  });
});
