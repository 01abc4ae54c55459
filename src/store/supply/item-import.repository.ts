import type { Reader } from '../../app/index.js';
import type { TableRow } from '../csv/table-file.js';

export interface KnownItem {
  /** Code in small letters */
  readonly key: string;
  readonly unit: string;
  readonly ended: boolean;
  /** Stock was moved, or an offer says how many units are in one package */
  readonly inUse: boolean;
}

export const itemsByKey = (tx: Reader, keys: readonly string[]) =>
  tx.$queryRaw<KnownItem[]>`
    SELECT lower(code) AS key, unit, ended_on IS NOT NULL AS ended,
           EXISTS (SELECT FROM stock_move m WHERE m.item_id = i.id) OR EXISTS (SELECT FROM offer o WHERE o.item_id = i.id) AS "inUse"
      FROM item i WHERE lower(code) = ANY(${[...new Set(keys)]})`;

/** Supply data of items by their codes, where the table says any. Answers with the ids of the items whose data were made or changed. */
export const takeSupply = (tx: Reader, rows: readonly TableRow[]) =>
  tx.$queryRawUnsafe<{ id: string }[]>(
    `WITH given AS (SELECT r.value AS v, i.id AS item_id FROM jsonb_array_elements($1::jsonb) r JOIN item i ON lower(i.code) = lower(r.value->>'code') AND i.ended_on IS NULL),
     wanted AS (
       SELECT g.item_id,
              CASE WHEN g.v ? 'criticality' THEN coalesce(g.v->>'criticality', 'can wait') ELSE coalesce(s.criticality, 'can wait') END AS criticality,
              CASE WHEN g.v ? 'shelf life days' THEN (g.v->>'shelf life days')::int ELSE s.shelf_life_days END AS shelf_life_days,
              CASE WHEN g.v ? 'review days' THEN coalesce((g.v->>'review days')::int, 0) ELSE coalesce(s.review_days, 0) END AS review_days,
              CASE WHEN g.v ? 'strength percent' THEN (g.v->>'strength percent')::numeric ELSE s.strength_percent END AS strength_percent
         FROM given g LEFT JOIN item_supply s ON s.item_id = g.item_id)
     INSERT INTO item_supply AS old (item_id, criticality, shelf_life_days, review_days, strength_percent)
     SELECT * FROM wanted w WHERE (criticality, shelf_life_days, review_days, strength_percent) IS DISTINCT FROM ('can wait'::text, NULL::int, 0, NULL::numeric)
        OR EXISTS (SELECT FROM item_supply s WHERE s.item_id = w.item_id)
     ON CONFLICT (item_id) DO UPDATE SET criticality = excluded.criticality, shelf_life_days = excluded.shelf_life_days, review_days = excluded.review_days,
       strength_percent = excluded.strength_percent, version = old.version + 1
     WHERE (old.criticality, old.shelf_life_days, old.review_days, old.strength_percent)
       IS DISTINCT FROM (excluded.criticality, excluded.shelf_life_days, excluded.review_days, excluded.strength_percent)
     RETURNING item_id AS id`,
    JSON.stringify(rows),
  );

export const itemTable = (reader: Reader) =>
  reader.$queryRaw<TableRow[]>`
    SELECT i.code, i.name, i.kind, i.unit, i.note, coalesce(s.criticality, 'can wait') AS criticality, s.shelf_life_days AS "shelf life days",
           coalesce(s.review_days, 0) AS "review days", trim_scale(s.strength_percent)::text AS "strength percent"
      FROM item i LEFT JOIN item_supply s ON s.item_id = i.id WHERE i.ended_on IS NULL ORDER BY i.code`;
