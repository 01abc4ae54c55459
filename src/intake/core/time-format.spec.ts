import { UTCDate } from '@date-fns/utc';
import { describe, expect, test } from '@jest/globals';
import { format as formatDate } from 'date-fns/format';
import fc from 'fast-check';
import { timeParser } from './time-format.js';

const read = (format: string, text: string) => timeParser(format)?.(text);
const wall = (text: string) => ({ kind: 'wall', wallMs: Date.parse(`${text}Z`) });
const moment = (text: string) => ({ kind: 'moment', atMs: Date.parse(text) });

describe('times as written', () => {
  test.each([
    ['iso', '2026-05-01T13:45:00Z', moment('2026-05-01T13:45:00Z')],
    ['iso', '2026-05-01T13:45:00+02:00', moment('2026-05-01T11:45:00Z')],
    ['iso', '2026-05-01 13:45:00-0330', moment('2026-05-01T17:15:00Z')],
    ['iso', '2026-05-01T13:45', wall('2026-05-01T13:45:00')],
    ['iso', '2026-05-01 13:45:10.25', wall('2026-05-01T13:45:10.250')],
    ['iso', '2026-05-01', wall('2026-05-01T00:00:00')],
    ['unix s', '1777642200', moment('2026-05-01T13:30:00Z')],
    ['unix ms', '1777642200000', moment('2026-05-01T13:30:00Z')],
    ['dd.MM.yyyy HH:mm:ss', '01.05.2026 13:45:00', wall('2026-05-01T13:45:00')],
    ['d.M.yyyy H:mm', '1.5.2026 7:05', wall('2026-05-01T07:05:00')],
    ['MM/dd/yyyy HH:mm', '05/01/2026 13:45', wall('2026-05-01T13:45:00')],
    ['yyyyMMddHHmmss', '20260501134500', wall('2026-05-01T13:45:00')],
    ["yyyy-MM-dd'T'HH:mm:ss.SSS", '2026-05-01T13:45:00.125', wall('2026-05-01T13:45:00.125')],
    ['d MMM yyyy hh:mm a', '1 May 2026 01:45 PM', wall('2026-05-01T13:45:00')],
    ['yyyy-MM-dd HH:mm:ss XXX', '2026-05-01 13:45:00 +02:00', moment('2026-05-01T11:45:00Z')],
  ])('%s reads %s', (format, text, expected) => expect(read(format, text)).toEqual(expected));

  test.each([
    ['iso', '2026-02-30T00:00', 'has a day that its month does not have'],
    ['iso', '2025-02-29', 'has a day that its month does not have'],
    ['iso', '2026-13-01T00:00', 'has no such month'],
    ['iso', '2026-05-01T24:00', 'has a time of day that no clock shows'],
    ['iso', '2026-05-01T10:61', 'has a time of day that no clock shows'],
    ['iso', '01.05.2026', 'is not a time in ISO 8601, such as 2026-05-01T13:45:00'],
    ['unix s', 'yesterday', 'is not a count of seconds or milliseconds since 1970'],
    ['dd.MM.yyyy', '31.04.2026', 'has a day that its month does not have'],
    ['dd.MM.yyyy', '2026-04-30', 'does not look like dd.MM.yyyy'],
    ['d MMM yyyy', '1 Mai 2026', 'does not look like d MMM yyyy'],
  ])('%s refuses %s', (format, text, reason) => expect(read(format, text)).toEqual({ kind: 'bad-time', reason }));

  test('29 February is there in leap years alone', () => {
    expect(read('iso', '2028-02-29')).toEqual(wall('2028-02-29T00:00:00'));
    expect(read('iso', '2100-02-29')).toMatchObject({ kind: 'bad-time' });
  });

  test.each(['HH:mm', 'dd.MM.yy', 'yyyy', '', 'yyyy-MM-dd nonsense', 'yyyy-yyyy-MM-dd'])('"%s" is no format of a time', (format) => {
    expect(timeParser(format)).toBeUndefined();
  });

  test.each(['yyyy-MM-dd HH:mm:ss', 'd.M.yyyy H:m:s', 'dd/MM/yyyy HH:mm:ss', 'd MMM yyyy hh:mm:ss a'])('%s reads what date-fns writes with it', (format) => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 4_000_000_000 }), (second) => {
        expect(read(format, formatDate(new UTCDate(second * 1000), format))).toEqual({ kind: 'wall', wallMs: second * 1000 });
      }),
      { numRuns: 40 },
    );
  });
});
