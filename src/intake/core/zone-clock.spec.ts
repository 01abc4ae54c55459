import { TZDate } from '@date-fns/tz';
import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { isTimeZone, zoneClock } from './zone-clock.js';

const wall = (text: string) => Date.parse(`${text}Z`);
const at = (text: string) => Date.parse(text);

describe('the clock of a zone', () => {
  const berlin = zoneClock('Europe/Berlin');

  test('turns a wall time into its moment', () => {
    expect(berlin(wall('2026-01-15T12:00:00'))).toEqual({ kind: 'once', atMs: at('2026-01-15T11:00:00Z') });
    expect(berlin(wall('2026-07-15T12:00:00'))).toEqual({ kind: 'once', atMs: at('2026-07-15T10:00:00Z') });
  });

  // Directive 2000/84/EC: summer time in the European Union begins and ends at 01:00 UTC on the last Sundays of March and October.
  test('knows both meanings of the doubled hour at the end of summer time, and the bounds of it', () => {
    expect(berlin(wall('2026-10-25T01:59:59'))).toEqual({ kind: 'once', atMs: at('2026-10-24T23:59:59Z') });
    expect(berlin(wall('2026-10-25T02:00:00'))).toEqual({ kind: 'twice', firstMs: at('2026-10-25T00:00:00Z'), secondMs: at('2026-10-25T01:00:00Z') });
    expect(berlin(wall('2026-10-25T02:59:59'))).toMatchObject({ kind: 'twice' });
    expect(berlin(wall('2026-10-25T03:00:00'))).toEqual({ kind: 'once', atMs: at('2026-10-25T02:00:00Z') });
  });

  test('knows that the skipped hour at the start of summer time never was', () => {
    expect(berlin(wall('2026-03-29T01:59:59'))).toEqual({ kind: 'once', atMs: at('2026-03-29T00:59:59Z') });
    expect(berlin(wall('2026-03-29T02:00:00'))).toEqual({ kind: 'never' });
    expect(berlin(wall('2026-03-29T02:59:59'))).toEqual({ kind: 'never' });
    expect(berlin(wall('2026-03-29T03:00:00'))).toEqual({ kind: 'once', atMs: at('2026-03-29T01:00:00Z') });
  });

  test('follows a zone that changes by half an hour', () => {
    const lordHowe = zoneClock('Australia/Lord_Howe');
    expect(lordHowe(wall('2026-04-05T01:45:00'))).toMatchObject({ kind: 'twice' });
    expect(lordHowe(wall('2026-04-05T01:15:00'))).toMatchObject({ kind: 'once' });
  });

  test('UTC has no such hours', () => {
    const utc = zoneClock('UTC');
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4e12 }), (ms) => expect(utc(ms)).toEqual({ kind: 'once', atMs: ms })),
      { numRuns: 50 },
    );
  });

  test.each(['Europe/Berlin', 'America/New_York', 'Asia/Kolkata', 'Pacific/Apia', 'America/Sao_Paulo', 'Africa/Casablanca', 'Pacific/Auckland'])(
    'finds every moment again from the wall time that %s shows for it',
    (zone) => {
      const clock = zoneClock(zone);
      fc.assert(
        fc.property(fc.date({ min: new Date('2000-01-01'), max: new Date('2030-01-01'), noInvalidDate: true }), (moment) => {
          const shown = new TZDate(moment, zone);
          const meaning = clock(moment.getTime() - shown.getTimezoneOffset() * 60_000);
          const moments = meaning.kind === 'once' ? [meaning.atMs] : meaning.kind === 'twice' ? [meaning.firstMs, meaning.secondMs] : [];
          expect(moments).toContain(moment.getTime());
        }),
        { numRuns: 60 },
      );
    },
  );
});

describe('time zones by name', () => {
  test.each(['Europe/Berlin', 'UTC', 'America/Argentina/Buenos_Aires', 'Etc/GMT+5'])('%s is one', (zone) => expect(isTimeZone(zone)).toBe(true));
  test.each(['Europe/Atlantis', '', '+02:00', "x'; DROP TABLE", 'site'])('"%s" is none', (zone) => expect(isTimeZone(zone)).toBe(false));
});
