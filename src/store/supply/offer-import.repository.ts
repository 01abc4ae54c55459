import type { Reader } from '../../app/index.js';
import { unitFactor } from '../core/supply/unit-factor.js';
import type { Taken } from '../csv/import-table.js';
import type { TableRow } from '../csv/table-file.js';

export interface KnownEnds {
  /** Code in small letters to the unit of use */
  readonly items: ReadonlyMap<string, string>;
  /** Names in small letters */
  readonly suppliers: ReadonlySet<string>;
}

/** Items and suppliers that have not ended. */
export async function knownEnds(tx: Reader, itemKeys: readonly string[], supplierKeys: readonly string[]): Promise<KnownEnds> {
  const items = await tx.$queryRaw<{ key: string; unit: string }[]>`
    SELECT lower(code) AS key, unit FROM item WHERE ended_on IS NULL AND lower(code) = ANY(${[...new Set(itemKeys)]})`;
  const suppliers = await tx.$queryRaw<{ key: string }[]>`
    SELECT lower(name) AS key FROM supplier WHERE ended_on IS NULL AND lower(name) = ANY(${[...new Set(supplierKeys)]})`;
  return { items: new Map(items.map(({ key, unit }) => [key, unit])), suppliers: new Set(suppliers.map(({ key }) => key)) };
}

/** A cell that is empty takes what is usual; a column that is not there leaves what is on record. */
const TAKE = `
  WITH given AS (
    SELECT r.value AS v, i.id AS item_id, s.id AS supplier_id, gen_random_uuid() AS new_id,
           coalesce((r.value->>'units per purchase')::numeric, (r.value->>'by the units')::numeric) AS factor
      FROM jsonb_array_elements($1::jsonb) r
      JOIN item i ON lower(i.code) = r.value->>'item key' AND i.ended_on IS NULL
      JOIN supplier s ON lower(s.name) = r.value->>'supplier key' AND s.ended_on IS NULL),
  wanted AS (
    SELECT g.v, g.item_id, g.supplier_id, g.new_id, o.id AS old_id, g.v->>'purchase unit' AS purchase_unit, g.factor AS units_per_purchase,
           CASE WHEN g.v ? 'supplier code' THEN coalesce(g.v->>'supplier code', '') ELSE coalesce(o.supplier_code, '') END AS supplier_code,
           CASE WHEN g.v ? 'pack' THEN coalesce((g.v->>'pack')::numeric, 1) ELSE coalesce(o.pack, 1) END AS pack,
           CASE WHEN g.v ? 'minimum quantity' THEN coalesce((g.v->>'minimum quantity')::numeric, 0) ELSE coalesce(o.minimum_quantity, 0) END AS minimum_quantity,
           CASE WHEN g.v ? 'lead days' THEN (g.v->>'lead days')::int ELSE o.lead_days END AS lead_days,
           CASE WHEN g.v ? 'rank' THEN coalesce((g.v->>'rank')::int, 1) ELSE coalesce(o.rank, 1) END AS rank,
           CASE WHEN g.v ? 'note' THEN coalesce(g.v->>'note', '') ELSE coalesce(o.note, '') END AS note,
           (g.v->>'price')::numeric AS price, coalesce((g.v->>'price from')::date, $3::timestamptz::date) AS price_from
      FROM given g LEFT JOIN offer o ON o.item_id = g.item_id AND o.supplier_id = g.supplier_id),
  stored AS (
    INSERT INTO offer (id, item_id, supplier_id, supplier_code, purchase_unit, units_per_purchase, pack, minimum_quantity, lead_days, rank, note)
    SELECT new_id, item_id, supplier_id, supplier_code, purchase_unit, units_per_purchase, pack, minimum_quantity, lead_days, rank, note FROM wanted
    ON CONFLICT (item_id, supplier_id) DO UPDATE SET supplier_code = excluded.supplier_code, purchase_unit = excluded.purchase_unit,
      units_per_purchase = excluded.units_per_purchase, pack = excluded.pack, minimum_quantity = excluded.minimum_quantity, lead_days = excluded.lead_days,
      rank = excluded.rank, note = excluded.note, ended_on = NULL, version = offer.version + 1
    WHERE (offer.supplier_code, offer.purchase_unit, offer.units_per_purchase, offer.pack, offer.minimum_quantity, offer.lead_days, offer.rank, offer.note, offer.ended_on)
      IS DISTINCT FROM (excluded.supplier_code, excluded.purchase_unit, excluded.units_per_purchase, excluded.pack, excluded.minimum_quantity, excluded.lead_days, excluded.rank, excluded.note, NULL::date)
    RETURNING id, item_id, supplier_id),
  priced AS (
    INSERT INTO offer_price (offer_id, from_day, price, by, at)
    SELECT coalesce(old_id, new_id), price_from, price, $2, $3::timestamptz FROM wanted w
     WHERE price IS NOT NULL AND NOT EXISTS (
       SELECT FROM (SELECT p.price FROM offer_price p WHERE p.offer_id = w.old_id AND p.from_day <= w.price_from ORDER BY p.from_day DESC LIMIT 1) now WHERE now.price = w.price)
    ON CONFLICT (offer_id, from_day) DO UPDATE SET price = excluded.price, by = excluded.by, at = excluded.at
    RETURNING offer_id),
  touched AS (SELECT id FROM stored UNION SELECT offer_id FROM priced)
  SELECT (SELECT count(*)::int FROM touched t JOIN wanted w ON w.new_id = t.id AND w.old_id IS NULL) AS made,
         (SELECT count(*)::int FROM touched t JOIN wanted w ON w.old_id = t.id) AS changed`;

/** Stores offers and the prices that differ from those on record. */
export async function takeOffers(tx: Reader, rows: readonly TableRow[], by: string, now: Date): Promise<Taken> {
  const units = await knownEnds(
    tx,
    rows.map((row) => String(row['item key'])),
    [],
  );
  const given = rows.map((row) => {
    const known = unitFactor(String(row['purchase unit']), units.items.get(String(row['item key'])) ?? '');
    return { ...row, 'by the units': known.kind === 'fixed' ? String(known.factor) : null };
  });
  const [taken] = await tx.$queryRawUnsafe<Taken[]>(TAKE, JSON.stringify(given), by, now);
  return taken ?? { made: 0, changed: 0 };
}
