import { describe, expect, test } from '@jest/globals';
import { type PasteColumn, pasteColumns, readPaste } from './hand-paste.js';

const METER = '0190a0b0-0000-7000-8000-000000000001';
const TANK = '0190a0b0-0000-7000-8000-000000000002';
const NAMED: PasteColumn[] = [
  { as: 'time' },
  { as: 'minutes since backwash' },
  { as: 'feed_pressure', unit: 'bar', smallestDivision: 0.1 },
  { as: 'temperature', unit: 'Cel' },
  { as: `meter ${METER}` },
  { as: `tank ${TANK}`, unit: 'cm' },
  { as: 'note' },
];

function paste(text: string, headerLines = 0) {
  const read = pasteColumns(NAMED);
  if (read.kind !== 'columns') throw new Error('bad columns');
  return readPaste(text, { columns: read.columns, decimal: ',', headerLines, readBy: 'Ada' });
}

describe('a pasted back-log', () => {
  test('is one reading a line, with what is on the left of it', () => {
    const [first] = paste('Datum\tmin\tbar\t°C\th\tcm\r\n03.05.2026 08:00\t15\t1,8\t12,5\t1200\t80\tleak at the flange\r\n', 1);
    expect(first).toEqual({
      line: 2,
      atText: '03.05.2026 08:00',
      faults: [],
      entry: {
        minutesSinceBackwash: 15,
        note: 'leak at the flange',
        readBy: 'Ada',
        values: [
          { signal: 'feed_pressure', unit: 'bar', smallestDivision: 0.1, value: 1.8, written: '1,8', column: 'column 3' },
          { signal: 'temperature', unit: 'Cel', smallestDivision: null, value: 12.5, written: '12,5', column: 'column 4' },
        ],
        meters: [{ meterId: METER, value: 1200, column: 'column 5' }],
        tanks: [{ tankId: TANK, levelM: 0.8, strengthGL: null, readingErrorM: 0.005, column: 'column 6' }],
      },
    });
  });

  test('takes an empty cell as a gauge that was not read, and a short line too', () => {
    const [first, second] = paste('t\t\t1,8\nt\t\t\t11');
    expect(first?.entry.values).toHaveLength(1);
    expect(second?.entry.values[0]?.signal).toBe('temperature');
  });

  test('says in which line and column a cell is no number, and goes on', () => {
    const entries = paste('t\t15\t1.8\t12\n\nt\t15\t1,8\t12');
    expect(entries.map(({ line, faults }) => [line, faults])).toEqual([
      [1, [{ column: 'column 3', value: '1.8', message: 'has a point, but the profile says that the decimal mark is a comma' }]],
      [3, []],
    ]);
  });

  test('refuses a line with more cells than columns', () => {
    expect(paste('a\tb\tc\td\te\tf\tg\th')[0]?.faults[0]).toMatchObject({ value: '8', message: 'cells, and 7 columns' });
  });

  test('tells semicolons and commas from the first mark that is there', () => {
    expect(paste('t;15;1,8')[0]?.entry.values[0]?.value).toBe(1.8);
  });
});

describe('columns of a back-log', () => {
  test.each<[PasteColumn[], string]>([
    [[{ as: 'note' }], 'no column is the time'],
    [[{ as: 'time' }, { as: 'time' }], 'more than one column is the time'],
    [[{ as: 'time' }, { as: 'pressure' }], 'pressure is no column that is known'],
    [[{ as: 'time' }, { as: 'feed_pressure' }], 'feed_pressure needs a unit'],
    [[{ as: 'time' }, { as: `tank ${TANK}`, unit: 'bar' }], `tank ${TANK} needs a unit of length`],
  ])('%j: %s', (named, message) => {
    expect(pasteColumns(named)).toMatchObject({ kind: 'bad-columns', faults: [expect.objectContaining({ message })] });
  });
});
