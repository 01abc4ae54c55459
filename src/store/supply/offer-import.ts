import { dayColumn, decimalColumn, needed, patternColumn, textColumn, wholeColumn } from '../core/csv/columns.js';
import type { ReadRow, RowProblem } from '../core/csv/read-table.js';
import { tradeUnit } from '../core/supply/trade-units.js';
import { unitFactor, unitProblem } from '../core/supply/unit-factor.js';
import type { ImportedTable } from '../csv/import-table.js';
import { type KnownEnds, knownEnds, takeOffers } from './offer-import.repository.js';

const unitColumn = (name: string) => {
  const column = patternColumn(
    name,
    /^[A-Z0-9]{2,3}$/,
    'must be a code of UN/CEFACT Recommendation 20, such as C62 or LTR, or a package code behind an X, such as XIH',
  );
  return {
    ...column,
    read: (text: string) => {
      const known = tradeUnit(text);
      return known.kind === 'unknown' && column.read(text).kind === 'value' ? ({ kind: 'wrong', message: `${text} ${known.why}` } as const) : column.read(text);
    },
  };
};

export const OFFER_COLUMNS = [
  needed(textColumn('item', 60)),
  needed(textColumn('supplier', 120)),
  textColumn('supplier code', 80),
  needed(unitColumn('purchase unit')),
  decimalColumn('units per purchase', { decimals: 6, aboveZero: true }),
  decimalColumn('pack', { decimals: 6, aboveZero: true }),
  decimalColumn('minimum quantity', { decimals: 6 }),
  wholeColumn('lead days', 0, 730),
  wholeColumn('rank', 1, 99),
  decimalColumn('price', { decimals: 4 }),
  dayColumn('price from'),
  textColumn('note', 2000),
] as const;

/** Offers as a table: known by the item's code and the supplier's name. */
export const offerImport: ImportedTable = {
  columns: OFFER_COLUMNS,
  key: ['item', 'supplier'],
  keyName: 'the offer',
  check: async (tx, rows) => {
    const known = await knownEnds(tx, names(rows, 'item'), names(rows, 'supplier'));
    return rows.flatMap((row) => problemsOf(row, known));
  },
  take: (tx, rows, { caller, now }) => {
    const given = rows.map(({ values }) => ({ ...values, 'item key': lower(values.item), 'supplier key': lower(values.supplier) }));
    return takeOffers(tx, given, caller.name, now);
  },
};

const lower = (value: unknown) => String(value).toLowerCase();
const names = (rows: readonly ReadRow[], column: string) => rows.map(({ values }) => lower(values[column]));

function problemsOf({ line, values }: ReadRow, { items, suppliers }: KnownEnds): RowProblem[] {
  const problem = (column: string, message: string): RowProblem => ({ line, column, value: values[column] === null ? null : String(values[column]), message });
  const useUnit = items.get(lower(values.item));
  const problems: RowProblem[] = [];
  if (useUnit === undefined) problems.push(problem('item', 'there is no item of this code that has not ended: enter it first'));
  if (!suppliers.has(lower(values.supplier))) problems.push(problem('supplier', 'there is no supplier of this name that has not ended: enter it first'));
  if (typeof values['price from'] === 'string' && typeof values.price !== 'string')
    problems.push(problem('price', 'say the price that holds from that day on'));
  if (useUnit === undefined) return problems;
  const unit = String(values['purchase unit']);
  const said = values['units per purchase'];
  const needs = typeof said !== 'string' && unitFactor(unit, useUnit).kind === 'of the item';
  const wrong = typeof said === 'string' ? unitProblem(unit, useUnit, Number(said)) : null;
  if (needs) problems.push(problem('units per purchase', `say how many ${useUnit} are in one ${unit}: the units alone do not tell`));
  if (wrong !== null) problems.push(problem('units per purchase', wrong));
  return problems;
}
