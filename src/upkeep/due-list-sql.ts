import { STANDINGS, type Standing } from '../shared/standing.js';
import { PLANNING_DAYS, WATCH_DAYS } from './core/planning.js';

/**
 * Each standing as a range of days, most urgent first. The day at the site differs by one at most from the day in UTC, so the index over `best_on` gives a little more than
 * the range, in order, and the day at the site decides. Read one after the other, the ranges give the list in its order, and those that the page does not reach are not read at all.
 */
const RANGES: Record<Standing, { readonly index: string; readonly exact: string }> = {
  overdue: { index: `d.best_on < $1::date + 2`, exact: `coalesce(d.latest_on, d.best_on) < p.today` },
  due: {
    index: `d.best_on < $1::date + ${PLANNING_DAYS + 2}`,
    exact: `d.best_on <= p.today + ${PLANNING_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today`,
  },
  'no-data': { index: `d.best_on IS NULL AND $1::date IS NOT NULL`, exact: 'true' },
  watch: {
    index: `d.best_on BETWEEN $1::date + ${PLANNING_DAYS - 1} AND $1::date + ${WATCH_DAYS + 1}`,
    exact: `d.best_on > p.today + ${PLANNING_DAYS} AND d.best_on <= p.today + ${WATCH_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today`,
  },
  steady: { index: `d.best_on > $1::date + ${WATCH_DAYS - 2}`, exact: `d.best_on > p.today + ${WATCH_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today` },
};

/** Skids that the filter asks for, with the day at their site; a zone is asked for its day once. */
const PLACES = `zone AS MATERIALIZED (SELECT time_zone, ($2::timestamptz AT TIME ZONE time_zone)::date AS today FROM (SELECT DISTINCT time_zone FROM site) z),
  place AS MATERIALIZED (
    SELECT s.no, s.id AS skid_id, s.name AS skid_name, site.name AS site_name, client.name AS client_name, zone.today
      FROM skid s JOIN site ON site.id = s.site_id JOIN client ON client.id = s.client_id JOIN zone ON zone.time_zone = site.time_zone
     WHERE s.ended_on IS NULL AND ($3::uuid IS NULL OR s.id = $3) AND ($4::uuid IS NULL OR s.client_id = $4) AND ($5::text IS NULL OR true)
  )`;
const FOUND = ` AND concat_ws(' ', d.task, p.skid_name, p.site_name, p.client_name, (SELECT name FROM position WHERE id = d.position_id)) ILIKE $5`;
const ORDER = `best_on, site_name, skid_name, task, id`;
const FROM = `FROM due d JOIN place p ON p.no = d.skid_no`;

/** The whole list is counted in the index, less what skids have that ended a moment ago. */
export const COUNT_ALL = `SELECT (SELECT count(*) FROM due)::int - (SELECT count(*) FROM due JOIN skid s ON s.no = due.skid_no WHERE s.ended_on IS NOT NULL)::int AS total`;

/** $1 the day in UTC, $2 the moment, $3 skid, $4 client, $5 words, $6 rows up to the end of the page, $7 rows of the page, $8 rows before it. */
export function pageSql(standings: readonly Standing[], searched: boolean): string {
  const ranges = standings.map((standing) => {
    const { index, exact } = RANGES[standing];
    return `(SELECT d.id, ${STANDINGS.indexOf(standing)} AS rank, '${standing}' AS standing, d.best_on, d.task, p.skid_id, p.skid_name, p.site_name, p.client_name
       ${FROM} WHERE ${index} AND ${exact}${searched ? FOUND : ''} ORDER BY d.best_on, p.site_name, p.skid_name, d.task, d.id LIMIT $6::int)`;
  });
  return `WITH ${PLACES}, keys AS MATERIALIZED (SELECT * FROM (${ranges.join(' UNION ALL ')}) ranges LIMIT $7::int OFFSET $8::int)
    SELECT k.id, k.skid_id AS "skidId", k.skid_name AS "skidName", k.site_name AS "siteName", k.client_name AS "clientName", d.position_id AS "positionId",
           pos.name AS "positionName", k.task, k.standing, to_char(d.earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(k.best_on, 'YYYY-MM-DD') AS "bestOn",
           to_char(d.latest_on, 'YYYY-MM-DD') AS "latestOn", d."limit", d.reason, d.computed_from AS "computedFrom", d.expected_minutes AS "expectedMinutes",
           d.task_sheet_id AS "taskSheetId", job.id AS "jobId", job.no AS "jobNo"
      FROM keys k JOIN due d ON d.id = k.id LEFT JOIN position pos ON pos.id = d.position_id
      LEFT JOIN LATERAL (
        SELECT j.id, j.no FROM job j JOIN job_task t ON t.job_id = j.id
         WHERE j.skid_id = k.skid_id AND j.state IN ('open', 'waiting', 'under way') AND t.task = k.task AND t.position_id IS NOT DISTINCT FROM d.position_id
         ORDER BY j.no LIMIT 1
      ) job ON true
     ORDER BY k.rank, ${ORDER.split(', ')
       .map((column) => `k.${column}`)
       .join(', ')}`;
}

export function countSql(standing: Standing | undefined, searched: boolean): string {
  const { index, exact } = standing === undefined ? { index: '$1::date IS NOT NULL', exact: 'true' } : RANGES[standing];
  return `WITH ${PLACES} SELECT count(*)::int AS total ${FROM} WHERE ${index} AND ${exact}${searched ? FOUND : ''}`;
}
