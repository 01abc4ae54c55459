import { takeItems } from '../../registry/index.js';
import { ITEM_KINDS } from '../../shared/item-kinds.js';
import { type CsvColumn, choiceColumn, decimalColumn, needed, patternColumn, textColumn, wholeColumn } from '../core/csv/columns.js';
import type { ReadRow, RowProblem } from '../core/csv/read-table.js';
import { tradeUnit } from '../core/supply/trade-units.js';
import type { ImportedTable } from '../csv/import-table.js';
import { itemsByKey, takeSupply } from './item-import.repository.js';
import { CRITICALITIES } from './item-supply.dto.js';

const unitColumn: CsvColumn = {
  ...patternColumn('unit', /./, ''),
  read: (text) => {
    const known = tradeUnit(text);
    return known.kind === 'unknown'
      ? { kind: 'wrong', message: `${text} ${known.why}: use C62 (one), LTR, KGM, MTR or another code of Recommendation 20` }
      : { kind: 'value', value: text };
  },
};

export const ITEM_COLUMNS = [
  needed(textColumn('code', 60)),
  needed(textColumn('name', 120)),
  needed(choiceColumn('kind', ITEM_KINDS)),
  unitColumn,
  textColumn('note', 2000),
  choiceColumn('criticality', CRITICALITIES),
  wholeColumn('shelf life days', 1, 36_500),
  wholeColumn('review days', 0, 366),
  decimalColumn('strength percent', { decimals: 4, most: 100 }),
] as const;

const keyOf = ({ values }: ReadRow): string => String(values.code).toLowerCase();

/** Items with what the store must know of them, as a table: known by their codes. */
export const itemImport: ImportedTable = {
  columns: ITEM_COLUMNS,
  key: ['code'],
  keyName: 'the item',
  check: async (tx, rows) => {
    const known = new Map((await itemsByKey(tx, rows.map(keyOf))).map((item) => [item.key, item]));
    return rows.flatMap((row): RowProblem[] => {
      const item = known.get(keyOf(row));
      const { line, values } = row;
      if (item?.ended === true)
        return [{ line, column: 'code', value: String(values.code), message: 'has ended: rename it there first, or leave the line out' }];
      const unit = values.unit;
      if (item === undefined || !item.inUse || typeof unit !== 'string' || unit === item.unit) return [];
      return [{ line, column: 'unit', value: unit, message: `its stock and offers are in ${item.unit}: enter another item for another unit` }];
    });
  },
  take: async (tx, rows) => {
    const values = rows.map((row) => row.values);
    const { made, changed } = await takeItems(tx, values);
    const supplied = await takeSupply(tx, values);
    const news = new Set(made);
    const touched = new Set([...changed, ...supplied.map(({ id }) => id)].filter((id) => !news.has(id)));
    return { made: news.size, changed: touched.size };
  },
};
