import { describe, expect, test } from '@jest/globals';
import { timeReader } from './read-time.js';
import { RowTimes } from './row-times.js';

const NOW = Date.parse('2026-11-25T12:00:00Z');

function read(texts: readonly string[]): string[] {
  const reader = timeReader('iso', 'Europe/Berlin', NOW);
  const seen: string[] = [];
  const times = new RowTimes<string>((row, atMs, doubtful) => seen.push(`${row} = ${new Date(atMs).toISOString().slice(11, 16)}Z${doubtful ? '?' : ''}`));
  for (const text of texts) {
    const time = reader?.(`2026-10-25T${text}`);
    if (time !== undefined && time.kind !== 'bad-time') times.add(text, time);
  }
  times.end();
  return seen;
}

describe('moments of rows', () => {
  test('a log that runs through the end of summer time keeps every row, in order', () => {
    expect(read(['01:30', '02:00', '02:30', '02:00', '02:30', '03:00'])).toEqual([
      '01:30 = 23:30Z',
      '02:00 = 00:00Z',
      '02:30 = 00:30Z',
      '02:00 = 01:00Z',
      '02:30 = 01:30Z',
      '03:00 = 02:00Z',
    ]);
  });

  test('an hour that was logged once is doubtful', () => {
    expect(read(['01:30', '02:00', '02:30', '03:00'])).toEqual(['01:30 = 23:30Z', '02:00 = 00:00Z?', '02:30 = 00:30Z?', '03:00 = 02:00Z']);
  });

  test('a file that ends in the doubled hour gives its last rows too', () => {
    expect(read(['01:00', '01:30', '02:00'])).toEqual(['01:00 = 23:00Z', '01:30 = 23:30Z', '02:00 = 00:00Z']);
  });
});

describe('times that are no reading', () => {
  const reader = timeReader('iso', 'Europe/Berlin', NOW);
  test.each([
    ['2026-03-29T02:30', 'lies in the hour that the start of summer time leaves out'],
    ['1979-12-31T12:00', 'lies before 1980'],
    ['2026-11-27T00:00', 'lies in the future'],
    ['2026-02-30T00:00', 'has a day that its month does not have'],
  ])('%s %s', (text, reason) => expect(reader?.(text)).toEqual({ kind: 'bad-time', reason }));

  test('a clock that runs ahead by less than a day is no fault', () => expect(reader?.('2026-11-26T10:00')).toMatchObject({ kind: 'once' }));
});
