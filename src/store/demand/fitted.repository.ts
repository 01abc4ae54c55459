import type { Reader } from '../../app/index.js';
import type { Items } from './stock-facts.repository.js';

export interface FittedRow {
  readonly itemId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly text: string;
  readonly quantity: number;
  readonly ageDays: number;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly metByDay: number[];
  readonly nextLifeDays: number | null;
}

/** An outlook that nothing has renewed for so long tells nothing of today. */
const STALE_DAYS = 60;

/**
 * Parts that are fitted and have an outlook, unless a job is to change them already: what a change takes is the set that is fitted and, of the sheet that the outlook's
 * due asks for, what is another item. The outlook is the latest; the part was in place all that time.
 */
export const fittedParts = (reader: Reader, items: Items, today: string) =>
  reader.$queryRaw<FittedRow[]>`
    WITH sheet AS MATERIALIZED (
      SELECT v.task_sheet_id, p.item_id, p.quantity FROM (SELECT DISTINCT ON (task_sheet_id) id, task_sheet_id FROM task_sheet_version ORDER BY task_sheet_id, no DESC) v
        JOIN task_sheet_part p ON p.version_id = v.id WHERE ${items}::uuid[] IS NULL OR p.item_id = ANY(${items}::uuid[])),
    asking AS MATERIALIZED (
      SELECT DISTINCT d.position_id, d.task_sheet_id FROM due d WHERE d.outlook_id IS NOT NULL AND d.task_sheet_id IN (SELECT task_sheet_id FROM sheet)),
    place AS MATERIALIZED (
      SELECT pos.id, pos.name, pos.skid_id, s.no, s.name AS skid_name, s.site_id, part.item_id, part.set_count, f.fitted_at, o.id AS outlook_id, o.origin_day, o.p10_days, o.p50_days, o.p90_days,
             o.met_by_day
        FROM position pos JOIN skid s ON s.id = pos.skid_id AND s.ended_on IS NULL JOIN fitting f ON f.position_id = pos.id AND f.removed_at IS NULL JOIN part ON part.id = f.part_id
        JOIN LATERAL (SELECT * FROM outlook o WHERE o.skid_no = s.no AND o.subject = pos.id::text AND o.limit_kind = 'cartridge dP' AND o.kind = 'outlook'
                       ORDER BY o.origin_day DESC LIMIT 1) o ON o.origin_day >= ${today}::date - ${STALE_DAYS}::int AND o.origin_at >= f.fitted_at
       WHERE pos.ended_on IS NULL AND pos.kind = 'pre-filter'
         AND (${items}::uuid[] IS NULL OR f.position_id = ANY(ARRAY(
               SELECT e.position_id FROM fitting e JOIN part ON part.id = e.part_id WHERE e.removed_at IS NULL AND part.item_id = ANY(${items}::uuid[]) UNION SELECT position_id FROM asking)))
         AND NOT EXISTS (SELECT 1 FROM job j JOIN job_task t ON t.job_id = j.id AND t.outcome IS NULL AND t.position_id = pos.id AND (t.outlook_id IS NOT NULL OR t.kind = 'part change')
                          WHERE j.skid_id = s.id AND j.state IN ('open', 'waiting', 'under way'))),
    taken AS (
      SELECT id, item_id, set_count::float8 AS quantity FROM place
      UNION ALL
      SELECT place.id, sheet.item_id, sheet.quantity::float8 FROM place JOIN asking ON asking.position_id = place.id
        JOIN sheet ON sheet.task_sheet_id = asking.task_sheet_id AND sheet.item_id <> place.item_id)
    SELECT taken.item_id AS "itemId", place.site_id AS "siteId", place.skid_id AS "skidId", place.name AS text, taken.quantity, greatest(0, ${today}::date - place.origin_day) AS "ageDays",
           place.p10_days AS "p10Days", place.p50_days AS "p50Days", place.p90_days AS "p90Days", place.met_by_day AS "metByDay",
           (SELECT avg(extract(epoch FROM e.removed_at - e.fitted_at) / 86400)::float8 FROM fitting e WHERE e.position_id = place.id AND e.removed_at > e.fitted_at) AS "nextLifeDays"
      FROM taken JOIN place ON place.id = taken.id WHERE ${items}::uuid[] IS NULL OR taken.item_id = ANY(${items}::uuid[])`;

export interface PastRow {
  readonly week: number;
  readonly siteId: string;
  readonly p50Days: number;
  readonly p10Days: number | null;
  readonly p90Days: number | null;
  readonly lastedDays: number;
  readonly met: boolean;
}

/** Outlooks of parts in the past, the latest, with what came of them or how long the part has lasted since. */
export const pastOutlooks = (reader: Reader) =>
  reader.$queryRaw<PastRow[]>`
    SELECT (extract(epoch FROM o.origin_day) / 604800)::int AS week, s.site_id AS "siteId", o.p50_days AS "p50Days", o.p10_days AS "p10Days", o.p90_days AS "p90Days",
           c.truth_days::float8 AS "lastedDays", c.kind = 'scored' AS met
      FROM outlook_score c JOIN outlook o ON o.id = c.outlook_id JOIN skid s ON s.no = o.skid_no
     WHERE o.limit_kind = 'cartridge dP' AND o.kind = 'outlook' AND o.p50_days > 0 AND c.truth_days > 0 ORDER BY o.origin_day DESC LIMIT 20000`;
