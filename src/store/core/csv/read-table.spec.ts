import { describe, expect, test } from '@jest/globals';
import { choiceColumn, dayColumn, decimalColumn, needed, textColumn, wholeColumn } from './columns.js';
import { readHead, readRow, repeatedKeys } from './read-table.js';

const COLUMNS = [
  needed(textColumn('item', 6)),
  decimalColumn('price', { decimals: 4 }),
  wholeColumn('lead days', 0, 730),
  choiceColumn('kind', ['seal', 'pump']),
  dayColumn('from'),
];
const head = readHead(['Item', 'PRICE', 'lead_days', 'kind', 'from', 'of ours'], COLUMNS);
const row = (...cells: string[]) => readRow(cells, head.kind === 'header' ? head.columns : [], 7);

describe('a table that people wrote', () => {
  test('is read by the names of its columns, whatever else it holds', () => {
    expect(row('SEAL', '12,5', '3', 'pump', '2026-11-30', 'x')).toEqual({
      kind: 'row',
      row: {
        line: 7,
        values: { item: 'SEAL', price: '12.5', 'lead days': 3, kind: 'pump', from: '2026-11-30' },
      },
    });
  });

  test('an empty cell is told from a column that is not there', () => {
    expect(row('SEAL', '', '', '', '', '')).toMatchObject({ row: { values: { price: null, kind: null } } });
    const narrow = readHead(['item'], COLUMNS);
    expect(readRow(['SEAL'], narrow.kind === 'header' ? narrow.columns : [], 2)).toEqual({ kind: 'row', row: { line: 2, values: { item: 'SEAL' } } });
  });

  test.each([
    [['', '1', '1', 'seal', '', ''], ['item']],
    [
      ['TOO LONG', '-1', '731', 'valve', '2026-11-31', ''],
      ['item', 'price', 'lead days', 'kind', 'from'],
    ],
    [
      ['SEAL', '1.000,5', '1.5', '', '', ''],
      ['price', 'lead days'],
    ],
    [
      ['SE\uFFFDL', '1e3', '', '', '', ''],
      ['item', 'price'],
    ],
    [['SEAL', '1.00005', '', '', '', ''], ['price']],
  ])('%j: every cell at fault is named', (cells, columns) => {
    const read = row(...cells);
    expect(read.kind === 'wrong' ? read.problems.map(({ column }) => column) : read).toEqual(columns);
  });

  test('a row that is too short is named whole', () => {
    expect(row('SEAL', '1')).toMatchObject({ problems: [{ line: 7, column: null, message: expect.stringContaining('2 cells') }] });
  });

  test('a head without a column that every row needs, or with one twice, is no head', () => {
    expect(readHead(['price'], COLUMNS)).toMatchObject({ kind: 'unreadable', message: expect.stringContaining('item') });
    expect(readHead(['item', 'Item '], COLUMNS)).toMatchObject({ kind: 'unreadable', message: expect.stringContaining('twice') });
  });

  test('what was marked so that no spreadsheet takes it for a formula is read without the mark', () => {
    expect(row("'+49 1", '', '', '', '', '')).toMatchObject({ row: { values: { item: '+49 1' } } });
  });

  test('a key that came before is named with the line where it came', () => {
    const rows = ['A', 'B', 'A'].map((item, at) => ({ line: at + 2, values: { item } }));
    expect(repeatedKeys(rows, ({ values }) => String(values.item), 'the item')).toEqual([
      expect.objectContaining({ line: 4, message: 'is the item of line 2 again: leave one of the two out' }),
    ]);
  });
});
