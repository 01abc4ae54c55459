import type { Reader } from '../../app/index.js';
import { decimalColumn, needed, patternColumn, textColumn, wholeColumn } from '../core/csv/columns.js';
import type { ReadRow, RowProblem } from '../core/csv/read-table.js';
import type { ImportedTable, Taken } from '../csv/import-table.js';

const EMAIL = /^[^\s@]+@[^\s@]+\.[^\s@]+$/;

export const SUPPLIER_COLUMNS = [
  needed(textColumn('name', 120)),
  needed(patternColumn('currency', /^[A-Z]{3}$/, 'must be a code of ISO 4217, such as EUR')),
  patternColumn('email', EMAIL, 'must be an e-mail address'),
  textColumn('contacts', 2000),
  textColumn('customer number', 60),
  wholeColumn('lead days', 0, 730),
  decimalColumn('minimum order', { decimals: 4 }),
  wholeColumn('order weekday', 1, 7),
  decimalColumn('order cost', { decimals: 4 }),
  textColumn('note', 2000),
] as const;

/** Of the cells that the file has: what is left out stays. */
const TAKE = `
  WITH given AS (SELECT r.value AS v, lower(r.value->>'name') AS key FROM jsonb_array_elements($1::jsonb) r),
  old AS (SELECT s.*, g.v FROM supplier s JOIN given g ON lower(s.name) = g.key AND s.ended_on IS NULL),
  changed AS (
    UPDATE supplier s SET currency = o.v->>'currency', email = CASE WHEN o.v ? 'email' THEN o.v->>'email' ELSE s.email END,
      contacts = CASE WHEN o.v ? 'contacts' THEN coalesce(o.v->>'contacts', '') ELSE s.contacts END,
      customer_number = CASE WHEN o.v ? 'customer number' THEN coalesce(o.v->>'customer number', '') ELSE s.customer_number END,
      lead_days = CASE WHEN o.v ? 'lead days' THEN (o.v->>'lead days')::int ELSE s.lead_days END,
      minimum_order = CASE WHEN o.v ? 'minimum order' THEN (o.v->>'minimum order')::numeric ELSE s.minimum_order END,
      order_weekday = CASE WHEN o.v ? 'order weekday' THEN (o.v->>'order weekday')::int ELSE s.order_weekday END,
      order_cost = CASE WHEN o.v ? 'order cost' THEN (o.v->>'order cost')::numeric ELSE s.order_cost END,
      note = CASE WHEN o.v ? 'note' THEN coalesce(o.v->>'note', '') ELSE s.note END, version = s.version + 1
    FROM old o WHERE s.id = o.id AND (o.v - 'name') <> (SELECT coalesce(jsonb_object_agg(key, value), '{}') FROM jsonb_each(jsonb_build_object(
      'currency', s.currency, 'email', s.email, 'contacts', nullif(s.contacts, ''), 'customer number', nullif(s.customer_number, ''), 'lead days', s.lead_days,
      'minimum order', trim_scale(s.minimum_order)::text, 'order weekday', s.order_weekday, 'order cost', trim_scale(s.order_cost)::text, 'note', nullif(s.note, '')))
      WHERE o.v ? key)
    RETURNING s.id),
  made AS (
    INSERT INTO supplier (id, name, currency, email, contacts, customer_number, lead_days, minimum_order, order_weekday, order_cost, note)
    SELECT gen_random_uuid(), v->>'name', v->>'currency', v->>'email', coalesce(v->>'contacts', ''), coalesce(v->>'customer number', ''), (v->>'lead days')::int,
           (v->>'minimum order')::numeric, (v->>'order weekday')::int, (v->>'order cost')::numeric, coalesce(v->>'note', '')
      FROM given WHERE NOT EXISTS (SELECT FROM old WHERE lower(old.name) = key) RETURNING id)
  SELECT (SELECT count(*)::int FROM made) AS made, (SELECT count(*)::int FROM changed) AS changed`;

/** Suppliers as a table: known by their names. */
export const supplierImport: ImportedTable = {
  columns: SUPPLIER_COLUMNS,
  key: ['name'],
  keyName: 'the supplier',
  check: async (tx, rows) => {
    const known = await tx.$queryRaw<{ key: string; ended: boolean; currency: string; open: boolean }[]>`
      SELECT lower(name) AS key, ended_on IS NOT NULL AS ended, currency,
             EXISTS (SELECT FROM purchase_order o WHERE o.supplier_id = s.id AND o.ended_at IS NULL) AS open
        FROM supplier s WHERE lower(name) = ANY(${rows.map(keyOf)})`;
    const byKey = new Map(known.map((supplier) => [supplier.key, supplier]));
    return rows.flatMap((row): RowProblem[] => {
      const supplier = byKey.get(keyOf(row));
      const problem = (column: string, message: string) => [{ line: row.line, column, value: String(row.values[column]), message }];
      if (supplier?.ended === true) return problem('name', 'has ended: rename it there first, or leave the line out');
      if (supplier?.open === true && supplier.currency !== row.values.currency)
        return problem('currency', `orders in ${supplier.currency} are open: close or cancel them first`);
      return [];
    });
  },
  take: async (tx: Reader, rows: readonly ReadRow[]): Promise<Taken> => {
    const [taken] = await tx.$queryRawUnsafe<Taken[]>(TAKE, JSON.stringify(rows.map(({ values }) => values)));
    return taken ?? { made: 0, changed: 0 };
  },
};

const keyOf = ({ values }: ReadRow): string => String(values.name).toLowerCase();
