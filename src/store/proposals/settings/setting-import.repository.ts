import type { Reader } from '../../../app/index.js';
import type { Taken } from '../../csv/import-table.js';
import type { TableRow } from '../../csv/table-file.js';

export interface SettingEnds {
  /** Codes in small letters */
  readonly items: ReadonlySet<string>;
  readonly places: ReadonlySet<string>;
  /** What is on record, by code in small letters and place */
  readonly settings: ReadonlyMap<string, SaidBefore>;
}

export interface SaidBefore {
  readonly service: string | null;
  readonly asked: number | null;
  readonly shortCost: string | null;
  readonly minimum: string | null;
  readonly maximum: string | null;
}

export const settingKey = (item: string, place: string) => JSON.stringify([item, place]);

/** Items and places that have not ended, and what was said of them: three statements. */
export async function settingEnds(tx: Reader, itemKeys: readonly string[], placeNames: readonly string[]): Promise<SettingEnds> {
  const [codes, names] = [[...new Set(itemKeys)], [...new Set(placeNames)]];
  const items = await tx.$queryRaw<{ key: string }[]>`SELECT lower(code) AS key FROM item WHERE ended_on IS NULL AND lower(code) = ANY(${codes})`;
  const places = await tx.$queryRaw<{ name: string }[]>`
    SELECT name FROM place WHERE ended_on IS NULL AND kind IN ('store', 'van', 'site') AND name = ANY(${names})`;
  const settings = await tx.$queryRaw<(SaidBefore & { item: string; place: string })[]>`
    SELECT lower(i.code) AS item, p.name AS place, s.service, s.asked, trim_scale(s.short_cost)::text AS "shortCost", trim_scale(s.minimum)::text AS minimum,
           trim_scale(s.maximum)::text AS maximum
      FROM stock_setting s JOIN item i ON i.id = s.item_id JOIN place p ON p.id = s.place_id
     WHERE lower(i.code) = ANY(${codes}) AND p.name = ANY(${names})`;
  return {
    items: new Set(items.map(({ key }) => key)),
    places: new Set(places.map(({ name }) => name)),
    settings: new Map(settings.map(({ item, place, ...said }) => [settingKey(item, place), said])),
  };
}

const COLUMNS = 'service, asked, short_cost, review_days, minimum, maximum, criticality, note';
const of = (table: string) =>
  COLUMNS.split(', ')
    .map((column) => `${table}.${column}`)
    .join(', ');

/** A cell that is empty takes what is usual; a column that is not there leaves what is on record. */
const cell = (name: string, column: string, type: string) => `CASE WHEN g.v ? '${name}' THEN (g.v->>'${name}')::${type} ELSE old.${column} END AS ${column}`;

const TAKE = `
  WITH given AS (
    SELECT r.value AS v, i.id AS item_id, p.id AS place_id FROM jsonb_array_elements($1::jsonb) r
      JOIN item i ON lower(i.code) = lower(r.value->>'item') AND i.ended_on IS NULL
      JOIN place p ON p.name = r.value->>'place' AND p.ended_on IS NULL),
  wanted AS (
    SELECT g.item_id, g.place_id, ${cell('service', 'service', 'text')},
           CASE WHEN g.v ? 'asked percent' THEN ((g.v->>'asked percent')::numeric / 100)::float8 ELSE old.asked END AS asked, ${cell('short cost', 'short_cost', 'numeric')},
           ${cell('review days', 'review_days', 'int')}, ${cell('minimum', 'minimum', 'numeric')}, ${cell('maximum', 'maximum', 'numeric')},
           ${cell('criticality', 'criticality', 'text')}, CASE WHEN g.v ? 'note' THEN coalesce(g.v->>'note', '') ELSE coalesce(old.note, '') END AS note
      FROM given g LEFT JOIN stock_setting old ON old.item_id = g.item_id AND old.place_id = g.place_id),
  stored AS (
    INSERT INTO stock_setting (item_id, place_id, ${COLUMNS}, by, at) SELECT item_id, place_id, ${COLUMNS}, $2, $3::timestamptz FROM wanted
    ON CONFLICT (item_id, place_id) DO UPDATE SET (${COLUMNS}, by, at, version) = (${of('excluded')}, excluded.by, excluded.at, stock_setting.version + 1)
    WHERE (${of('stock_setting')}) IS DISTINCT FROM (${of('excluded')}) RETURNING version)
  SELECT count(*) FILTER (WHERE version = 1)::int AS made, count(*) FILTER (WHERE version > 1)::int AS changed FROM stored`;

export async function takeSettings(tx: Reader, rows: readonly TableRow[], by: string, now: Date): Promise<Taken> {
  const [taken] = await tx.$queryRawUnsafe<Taken[]>(TAKE, JSON.stringify(rows), by, now);
  return taken ?? { made: 0, changed: 0 };
}
