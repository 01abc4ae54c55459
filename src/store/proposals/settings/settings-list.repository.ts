import { likeOf, type Reader, readCursor } from '../../../app/index.js';
import type { TableRow } from '../../csv/table-file.js';
import type { KeptItemView, StockSettingsQuery } from './settings.dto.js';

export type KeptRow = { readonly [Field in keyof KeptItemView]: KeptItemView[Field] };

/** What was said of items at places, by item and place. */
export function settingsPage(reader: Reader, { itemId, placeId, find, cursor, limit }: StockSettingsQuery): Promise<KeptRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<KeptRow[]>(
    `SELECT s.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, s.place_id AS "placeId", p.name AS "placeName", s.service, s.asked,
            trim_scale(s.short_cost)::text AS "shortCost", s.review_days AS "reviewDays", trim_scale(s.minimum)::text AS minimum, trim_scale(s.maximum)::text AS maximum,
            s.criticality, s.note, s.by, s.at, s.version
       FROM stock_setting s JOIN item i ON i.id = s.item_id JOIN place p ON p.id = s.place_id
      WHERE ($1::uuid IS NULL OR s.item_id = $1) AND ($2::uuid IS NULL OR s.place_id = $2)
        AND ($3::text IS NULL OR concat_ws(chr(10), i.code, i.name, p.name, s.note) ILIKE $3) AND ($4::text IS NULL OR (i.code, p.name) > ($4, $5::text))
      ORDER BY i.code, p.name LIMIT $6::int`,
    itemId ?? null,
    placeId ?? null,
    likeOf(find),
    ...behind,
    limit + 1,
  );
}

/** All of them, in the words of the table that people write. */
export const settingsTable = (reader: Reader) =>
  reader.$queryRaw<TableRow[]>`
    SELECT i.code AS item, p.name AS place, s.service, trim_scale(round((s.asked * 100)::numeric, 4))::text AS "asked percent", trim_scale(s.short_cost)::text AS "short cost",
           s.review_days AS "review days", trim_scale(s.minimum)::text AS minimum, trim_scale(s.maximum)::text AS maximum, s.criticality, s.note
      FROM stock_setting s JOIN item i ON i.id = s.item_id JOIN place p ON p.id = s.place_id WHERE i.ended_on IS NULL AND p.ended_on IS NULL ORDER BY i.code, p.name`;
