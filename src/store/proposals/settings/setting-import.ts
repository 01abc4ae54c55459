import { type CellValue, type CsvColumn, choiceColumn, decimalColumn, needed, textColumn, wholeColumn } from '../../core/csv/columns.js';
import type { ReadRow, RowProblem } from '../../core/csv/read-table.js';
import { settingProblem } from '../../core/proposals/setting-problem.js';
import type { ImportedTable } from '../../csv/import-table.js';
import { CRITICALITIES, SERVICES } from '../reorder.dto.js';
import { type SettingEnds, settingEnds, settingKey, takeSettings } from './setting-import.repository.js';

const shareColumn = decimalColumn('asked percent', { decimals: 4, most: 100 });
const percentColumn: CsvColumn = {
  ...shareColumn,
  read: (text) => {
    const cell = shareColumn.read(text);
    const isShare = cell.kind === 'value' && Number(cell.value) >= 50 && Number(cell.value) <= 99.99;
    return isShare ? cell : { kind: 'wrong', message: 'must be from 50 to 99.99, with four decimals at most, such as 97.5' };
  },
};

export const SETTING_COLUMNS = [
  needed(textColumn('item', 60)),
  needed(textColumn('place', 120)),
  choiceColumn('service', SERVICES),
  percentColumn,
  decimalColumn('short cost', { decimals: 4, aboveZero: true }),
  wholeColumn('review days', 0, 366),
  decimalColumn('minimum', { decimals: 6 }),
  decimalColumn('maximum', { decimals: 6 }),
  choiceColumn('criticality', CRITICALITIES),
  textColumn('note', 500),
] as const;

const COLUMN_OF = { service: 'service', asked: 'asked percent', shortCost: 'short cost', minimum: 'minimum', maximum: 'maximum' } as const;

/** How items are kept at places, as a table: known by the code of the item and the name of the place. */
export const settingImport: ImportedTable = {
  columns: SETTING_COLUMNS,
  key: ['item', 'place'],
  keyName: 'the item and place',
  check: async (tx, rows) => {
    const known = await settingEnds(
      tx,
      rows.map(({ values }) => String(values.item).toLowerCase()),
      rows.map(({ values }) => String(values.place)),
    );
    return rows.flatMap((row) => problemsOf(row, known));
  },
  take: (tx, rows, { caller, now }) =>
    takeSettings(
      tx,
      rows.map(({ values }) => values),
      caller.name,
      now,
    ),
};

function problemsOf({ line, values }: ReadRow, { items, places, settings }: SettingEnds): RowProblem[] {
  const item = String(values.item).toLowerCase();
  const place = String(values.place);
  const problem = (column: string, message: string): RowProblem => ({ line, column, value: values[column] == null ? null : String(values[column]), message });
  const problems: RowProblem[] = [];
  if (!items.has(item)) problems.push(problem('item', 'there is no item of this code that has not ended: enter it first'));
  if (!places.has(place)) problems.push(problem('place', 'there is no store, van or place at a site of this name that has not ended: enter it first'));
  const before = settings.get(settingKey(item, place));
  const said = (column: string, old: CellValue | undefined) => (column in values ? (values[column] ?? null) : (old ?? null));
  const asText = (value: CellValue) => (value === null ? null : String(value));
  const share = values['asked percent'] == null ? null : Number(values['asked percent']) / 100;
  const found = settingProblem({
    service: asText(said('service', before?.service)),
    asked: 'asked percent' in values ? share : (before?.asked ?? null),
    shortCost: asText(said('short cost', before?.shortCost)),
    minimum: asText(said('minimum', before?.minimum)),
    maximum: asText(said('maximum', before?.maximum)),
  });
  return found === null ? problems : [...problems, problem(COLUMN_OF[found.field], found.message)];
}
