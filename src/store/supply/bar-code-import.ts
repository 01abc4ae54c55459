import { type CsvColumn, decimalColumn, needed, textColumn } from '../core/csv/columns.js';
import type { RowProblem } from '../core/csv/read-table.js';
import { scanOf } from '../core/supply/scan.js';
import type { ImportedTable } from '../csv/import-table.js';
import { itemsOfCodes, takeBarCodes } from './bar-codes.repository.js';
import { knownEnds } from './offer-import.repository.js';

/** The part of a code that names an item says no year. */
const ANY_YEAR = 2000;

const codeColumn: CsvColumn = {
  name: 'code',
  needed: true,
  read: (text) => {
    const scan = scanOf(text, ANY_YEAR);
    if (scan.kind === 'unreadable') return { kind: 'wrong', message: scan.why };
    if (scan.code === null || scan.code.length > 120) return { kind: 'wrong', message: 'names no item: scan the code with the trade item number, (01)' };
    return { kind: 'value', value: scan.code };
  },
};

export const BAR_CODE_COLUMNS = [
  codeColumn,
  needed(textColumn('item', 60)),
  decimalColumn('quantity', { decimals: 6, aboveZero: true }),
  textColumn('note', 200),
] as const;

/** Bar codes as a table. A code stays with its item: whoever wants it elsewhere takes it from there first. */
export const barCodeImport: ImportedTable = {
  columns: BAR_CODE_COLUMNS,
  key: ['code'],
  keyName: 'the code',
  check: async (tx, rows) => {
    const { items } = await knownEnds(
      tx,
      rows.map(({ values }) => String(values.item).toLowerCase()),
      [],
    );
    const known = await itemsOfCodes(
      tx,
      rows.map(({ values }) => String(values.code)),
    );
    const ofCode = new Map(known.map(({ code, item }) => [code, item]));
    return rows.flatMap(({ line, values }): RowProblem[] => {
      const item = String(values.item).toLowerCase();
      const code = String(values.code);
      const other = ofCode.get(code);
      if (!items.has(item))
        return [{ line, column: 'item', value: String(values.item), message: 'there is no item of this code that has not ended: enter it first' }];
      if (other === undefined || other === item) return [];
      return [{ line, column: 'code', value: code, message: `is the code of the item ${other} already: take it from there first` }];
    });
  },
  take: (tx, rows, { caller, now }) =>
    takeBarCodes(
      tx,
      rows.map(({ values }) => values),
      caller.name,
      now,
    ),
};
