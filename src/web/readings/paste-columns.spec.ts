import { describe, expect, it } from '@jest/globals';
import type { Sheet } from './hand-fields.js';
import { cellsOf, guessColumns, hasHeading } from './paste-columns.js';

const sheet: Sheet = {
  skidId: 's',
  skidName: 'UF-1',
  siteName: 'Works',
  timeZone: 'Europe/Madrid',
  asksMinutesSinceBackwash: true,
  gauges: [
    { signal: 'feed_pressure', label: 'Feed pressure', unit: 'bar', unitLabel: 'bar', smallestDivision: null, lastValue: null, lastAt: null, caution: null },
  ],
  meters: [{ meterId: 'm', label: 'Feed pump: run hours', kind: 'run hours', lastValue: null, lastAt: null }],
  tanks: [],
  cautions: [],
};

describe('the columns of a pasted back-log', () => {
  it('are cut at tabs before anything else, as spreadsheets copy them', () => {
    expect(cellsOf('2026-11-01 06:00\t1,45\n2026-11-02 06:00\t1,50\n', 3)).toEqual([
      ['2026-11-01 06:00', '1,45'],
      ['2026-11-02 06:00', '1,50'],
    ]);
    expect(cellsOf('a;1,5\nb;1,6', 1)).toEqual([['a', '1,5']]);
  });

  it('are known by their headings', () => {
    const cells = cellsOf('Date and time;Feed pump: run hours;Weather\n2026-11-01;5;dry', 3);
    expect(hasHeading(cells)).toBe(true);
    expect(guessColumns(sheet, cells).map(({ as }) => as)).toEqual(['time', 'meter m', 'skip']);
  });

  it('are taken in the order of the printed sheet where there are no headings', () => {
    const columns = guessColumns(sheet, cellsOf('2026-11-01 06:00\t1.45\t18342', 3));
    expect(columns).toEqual([
      { as: 'time', unit: '' },
      { as: 'feed_pressure', unit: 'bar' },
      { as: 'meter m', unit: '' },
    ]);
  });
});
