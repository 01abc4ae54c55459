import type { Reader } from '../../app/index.js';
import type { Items } from './stock-facts.repository.js';

export interface UseAtPlace {
  readonly placeId: string;
  readonly itemId: string;
  /** [months ago, all that was used, of it what no plan and no outlook had told of]; 0 months ago is the running month */
  readonly months: readonly (readonly [number, number, number])[];
}

/** Months that are looked at. */
const USE_MONTHS = 48;

/**
 * What was used at each place, by month: what jobs took and what was consumed, less what came back; no transfers, and nothing that was taken back. A job with a
 * task that a rule or an outlook asked for was told of.
 */
export const monthlyUse = (reader: Reader, items: Items, today: string) =>
  reader.$queryRaw<UseAtPlace[]>`
    WITH used AS (
      SELECT coalesce(m.from_place_id, m.to_place_id) AS place_id, m.item_id, p.job_id,
             ((extract(year FROM ${today}::date) - extract(year FROM p.at)) * 12 + extract(month FROM ${today}::date) - extract(month FROM p.at))::int AS ago,
             sum(CASE WHEN m.from_place_id IS NULL THEN -m.quantity ELSE m.quantity END) AS quantity
        FROM stock_post p JOIN stock_move m ON m.post_id = p.id
       WHERE p.at >= date_trunc('month', ${today}::date) - make_interval(months => ${USE_MONTHS}::int)
         AND (p.kind IN ('use', 'consume') AND m.from_place_id IS NOT NULL AND m.to_place_id IS NULL OR p.kind = 'return' AND m.from_place_id IS NULL)
         AND m.owner <> 'client' AND (${items}::uuid[] IS NULL OR m.item_id = ANY(${items}::uuid[]))
         AND NOT EXISTS (SELECT 1 FROM stock_post back WHERE back.reverses = p.id)
       GROUP BY 1, 2, 3, 4),
    told AS (SELECT DISTINCT t.job_id FROM job_task t WHERE t.job_id IN (SELECT job_id FROM used) AND (t.rule_id IS NOT NULL OR t.outlook_id IS NOT NULL))
    SELECT place_id AS "placeId", item_id AS "itemId", jsonb_agg(jsonb_build_array(ago, used, untold)) AS months
      FROM (SELECT place_id, item_id, ago, sum(quantity)::float8 AS used, coalesce(sum(quantity) FILTER (WHERE told.job_id IS NULL), 0)::float8 AS untold
              FROM used LEFT JOIN told ON told.job_id = used.job_id WHERE ago >= 0 GROUP BY 1, 2, 3) each GROUP BY 1, 2`;

/** Since when an item has been known to the ledger, in months; its use before then is not known. */
export const knownFor = (reader: Reader, items: Items, today: string) =>
  reader.$queryRaw<{ itemId: string; months: number }[]>`
    SELECT m.item_id AS "itemId",
           least(${USE_MONTHS}::int, (extract(year FROM ${today}::date) - extract(year FROM min(p.at))) * 12 + extract(month FROM ${today}::date) - extract(month FROM min(p.at)))::int AS months
      FROM stock_move m JOIN stock_post p ON p.id = m.post_id WHERE ${items}::uuid[] IS NULL OR m.item_id = ANY(${items}::uuid[]) GROUP BY 1`;
