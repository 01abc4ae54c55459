import type { Reader } from '../../app/index.js';
import type { Items } from './stock-facts.repository.js';

/** Work that is further ahead asks for nothing yet. */
const HORIZON_DAYS = 182;

export interface PlannedRow {
  readonly kind: 'due' | 'job' | 'coming work';
  readonly itemId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly text: string;
  readonly jobId: string | null;
  readonly visitId: string | null;
  readonly quantity: number;
  readonly inDays: number;
  /** Promised to the client */
  readonly promised: boolean;
}

/**
 * Open jobs first, then dues that no job has taken up, then what rules ask for after those: with the parts of their sheets. Parts whose change an outlook asks for are
 * counted with their outlook.
 */
export const plannedWork = (reader: Reader, items: Items, today: string) =>
  reader.$queryRaw<PlannedRow[]>`
    WITH sheet AS MATERIALIZED (
      SELECT v.task_sheet_id, v.id AS version_id, v.latest, s.task, p.item_id, p.quantity
        FROM (SELECT *, no = max(no) OVER (PARTITION BY task_sheet_id) AS latest FROM task_sheet_version) v JOIN task_sheet s ON s.id = v.task_sheet_id
        JOIN task_sheet_part p ON p.version_id = v.id WHERE ${items}::uuid[] IS NULL OR p.item_id = ANY(${items}::uuid[])),
    doing AS MATERIALIZED (
      SELECT j.id, j.no, j.title, j.skid_id, j.site_id, j.visit_id, t.task, t.position_id, t.sheet_version_id, t.due_on, t.latest_on, j.best_on, j.latest_on AS job_latest
        FROM job j JOIN job_task t ON t.job_id = j.id AND t.outcome IS NULL WHERE j.state IN ('open', 'waiting', 'under way')),
    open_due AS MATERIALIZED (
      SELECT d.skid_no, d.task, d.task_sheet_id, d.best_on, o.id AS outlook_id, s.id AS skid_id, s.site_id, s.name, pos.name AS position_name,
             EXISTS (SELECT 1 FROM doing WHERE doing.skid_id = s.id AND doing.task = d.task AND doing.position_id IS NOT DISTINCT FROM d.position_id) AS taken
        FROM due d JOIN skid s ON s.no = d.skid_no AND s.ended_on IS NULL LEFT JOIN position pos ON pos.id = d.position_id
        LEFT JOIN outlook o ON o.id = d.outlook_id AND o.limit_kind = 'cartridge dP'
       WHERE d.task_sheet_id IN (SELECT task_sheet_id FROM sheet WHERE latest)),
    seen AS MATERIALIZED (SELECT skid_no, task, count(*) AS dues FROM open_due GROUP BY 1, 2 HAVING count(outlook_id) = 0)
    SELECT 'job' AS kind, sheet.item_id AS "itemId", d.site_id AS "siteId", d.skid_id AS "skidId", 'Job ' || d.no || ': ' || d.task AS text, d.id AS "jobId", v.id AS "visitId",
           sheet.quantity::float8 AS quantity, coalesce(v.on_day, d.best_on, d.due_on, d.latest_on, d.job_latest, ${today}::date) - ${today}::date AS "inDays",
           coalesce(v.state IN ('promised', 'under way'), false) AS promised
      FROM doing d JOIN sheet ON sheet.version_id = d.sheet_version_id LEFT JOIN visit v ON v.id = d.visit_id AND v.state NOT IN ('finished', 'called off')
     WHERE coalesce(v.on_day, d.best_on, d.due_on, d.latest_on, d.job_latest, ${today}::date) <= ${today}::date + ${HORIZON_DAYS}::int
    UNION ALL
    SELECT 'due', sheet.item_id, d.site_id, d.skid_id, d.task || coalesce(', ' || d.position_name, ''), NULL, NULL, sheet.quantity::float8, d.best_on - ${today}::date, false
      FROM open_due d JOIN sheet ON sheet.task_sheet_id = d.task_sheet_id AND sheet.latest
     WHERE d.outlook_id IS NULL AND NOT d.taken AND d.best_on <= ${today}::date + ${HORIZON_DAYS}::int
    UNION ALL
    SELECT 'coming work', sheet.item_id, s.site_id, s.id, w.task, NULL, NULL, sheet.quantity::float8 * least(w.times, w.upto - w.dues), w.week + 3 - ${today}::date, false
      FROM (SELECT seen.skid_no, seen.dues, a.week, t.task, sum(t.times) AS times, sum(sum(t.times)) OVER (PARTITION BY seen.skid_no, t.task ORDER BY a.week) AS upto
              FROM seen JOIN work_ahead a ON a.skid_no = seen.skid_no AND a.week <= ${today}::date + ${HORIZON_DAYS}::int
             CROSS JOIN LATERAL jsonb_to_recordset(a.detail) AS t(task text, times int) WHERE t.task = seen.task GROUP BY 1, 2, 3, 4) w
      JOIN skid s ON s.no = w.skid_no JOIN sheet ON sheet.task = w.task AND sheet.latest
     WHERE w.upto > w.dues`;

/** Names for those who read what drives a need. */
export const skidNames = (reader: Reader, skidIds: readonly string[]) =>
  reader.$queryRaw<{ id: string; name: string; siteName: string }[]>`
    SELECT s.id, s.name, site.name AS "siteName" FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = ANY(${[...skidIds]}::uuid[])`;
