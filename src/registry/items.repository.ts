import type { Reader } from '../app/index.js';
import type { Item } from '../generated/prisma/client.js';
import { NamedRecords } from './named-records.repository.js';

export type ItemRow = Item;

export const itemRecords = new NamedRecords<ItemRow>({
  what: 'item',
  table: (reader) => reader.item,
  orderBy: 'code',
  searched: ['code', 'name', 'note'],
  include: {},
});

/** A cell of a table by the name of its column: an empty one takes what is usual, one that is not there leaves what is on record. */
type Cells = Readonly<Record<string, string | number | null>>;

/** Stores items of a table by their codes, whatever the case of those; the ids of the new ones and of those that were changed. */
export async function takeItems(tx: Reader, rows: readonly Cells[]): Promise<{ made: string[]; changed: string[] }> {
  const changed = await tx.$queryRawUnsafe<{ id: string }[]>(
    `UPDATE item i SET name = w.name, kind = w.kind, unit = w.unit, note = w.note, version = i.version + 1
       FROM (SELECT o.id, r.value->>'name' AS name, r.value->>'kind' AS kind, coalesce(r.value->>'unit', o.unit) AS unit,
                    CASE WHEN r.value ? 'note' THEN coalesce(r.value->>'note', '') ELSE o.note END AS note
               FROM jsonb_array_elements($1::jsonb) r JOIN item o ON lower(o.code) = lower(r.value->>'code') AND o.ended_on IS NULL) w
      WHERE w.id = i.id AND (i.name, i.kind, i.unit, i.note) IS DISTINCT FROM (w.name, w.kind, w.unit, w.note) RETURNING i.id`,
    JSON.stringify(rows),
  );
  const made = await tx.$queryRawUnsafe<{ id: string }[]>(
    `INSERT INTO item (id, code, name, kind, unit, note)
     SELECT gen_random_uuid(), r.value->>'code', r.value->>'name', r.value->>'kind', coalesce(r.value->>'unit', 'C62'), coalesce(r.value->>'note', '')
       FROM jsonb_array_elements($1::jsonb) r WHERE NOT EXISTS (SELECT FROM item o WHERE lower(o.code) = lower(r.value->>'code')) RETURNING id`,
    JSON.stringify(rows),
  );
  return { made: made.map(({ id }) => id), changed: changed.map(({ id }) => id) };
}
