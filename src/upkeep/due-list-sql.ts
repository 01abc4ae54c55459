import { STANDINGS, type Standing } from '../shared/standing.js';
import { PLANNING_DAYS, WATCH_DAYS } from './core/planning.js';

/**
 * Each standing as a range of days, most urgent first. The day at a site differs by one at most from the day in UTC, which stands here as a constant: the index over `best_on`
 * gives a little more than the range, in order, and the day at the site decides. Read one after the other, the ranges give the list in its order, and those that the page does not
 * reach are not read at all.
 */
const rangesOn = (day: string): Record<Standing, { readonly index: string; readonly exact: string }> => ({
  overdue: { index: `d.best_on < date '${day}' + 2`, exact: `coalesce(d.latest_on, d.best_on) < p.today` },
  due: {
    index: `d.best_on < date '${day}' + ${PLANNING_DAYS + 2}`,
    exact: `d.best_on <= p.today + ${PLANNING_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today`,
  },
  'no-data': { index: `d.best_on IS NULL`, exact: 'true' },
  watch: {
    index: `d.best_on BETWEEN date '${day}' + ${PLANNING_DAYS - 1} AND date '${day}' + ${WATCH_DAYS + 1}`,
    exact: `d.best_on > p.today + ${PLANNING_DAYS} AND d.best_on <= p.today + ${WATCH_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today`,
  },
  steady: {
    index: `d.best_on > date '${day}' + ${WATCH_DAYS - 2}`,
    exact: `d.best_on > p.today + ${WATCH_DAYS} AND coalesce(d.latest_on, d.best_on) >= p.today`,
  },
});

/** What a list is narrowed to, as conditions that are there only where they are needed: the database plans for each list what that list takes. */
export interface Narrowed {
  readonly standing: Standing | undefined;
  readonly bySkid: boolean;
  readonly byClient: boolean;
  readonly bySite: boolean;
  readonly byWords: boolean;
}

const skidsOf = ({ bySkid, byClient, bySite }: Narrowed) =>
  `s.ended_on IS NULL AND ${bySkid ? 's.id = $2::uuid' : '$2::uuid IS NULL'} AND ${byClient ? 's.client_id = $3::uuid' : '$3::uuid IS NULL'}
       AND ${bySite ? 's.site_id = $5::uuid' : '$5::uuid IS NULL'}`;

/** Skids that the list is about, with the day at their site (a zone is asked for its day once); and where words are looked for, the dues that have them. */
const sourcesOf = (narrowed: Narrowed) => `zone AS MATERIALIZED (
    SELECT time_zone, ($1::timestamptz AT TIME ZONE time_zone)::date AS today FROM (SELECT DISTINCT time_zone FROM site) z
  ), place AS MATERIALIZED (
    SELECT s.no, s.id AS skid_id, s.client_id, s.site_id, s.name AS skid_name, site.name AS site_name, zone.today
      FROM skid s JOIN site ON site.id = s.site_id JOIN zone ON zone.time_zone = site.time_zone
     WHERE ${skidsOf(narrowed)} ${narrowed.byWords ? '' : 'AND $4::text IS NULL'}
  )${narrowed.byWords ? `, ${FOUND}` : ''}`;

const FOUND = `found AS MATERIALIZED (
    SELECT d.id, d.best_on, d.latest_on, d.skid_no, d.task
      FROM due d JOIN place p ON p.no = d.skid_no JOIN client ON client.id = p.client_id LEFT JOIN position ON position.id = d.position_id
     WHERE concat_ws(' ', d.task, p.skid_name, p.site_name, client.name, position.name) ILIKE $4::text
  )`;

/**
 * The first rows of one range, with those of the same day as the last: the index gives them in order, so that no more are read than the page has. Each asks for the day at its own
 * site. Only what has no day is put in order as a whole.
 */
const firstOf = (narrowed: Narrowed, index: string, exact: string) => `(
        SELECT d.id, d.best_on, d.latest_on, d.task, s.id AS skid_id, s.client_id, s.site_id, s.name AS skid_name, site.name AS site_name, p.today
          FROM due d JOIN skid s ON s.no = d.skid_no JOIN site ON site.id = s.site_id
          CROSS JOIN LATERAL (SELECT ($1::timestamptz AT TIME ZONE site.time_zone)::date AS today) p
         WHERE ${index} AND ${exact} AND ${skidsOf(narrowed)} AND $4::text IS NULL
         ORDER BY d.best_on FETCH FIRST ($6::int) ROWS WITH TIES)`;

const foundOf = (index: string, exact: string) => `(
        SELECT d.id, d.best_on, d.latest_on, d.task, p.skid_id, p.client_id, p.site_id, p.skid_name, p.site_name, p.today
          FROM found d JOIN place p ON p.no = d.skid_no WHERE ${index} AND ${exact})`;

/** The whole list is counted in the index, less what skids have that ended a moment ago. */
const TOTAL = `(SELECT count(*) FROM due)::int - (SELECT count(*) FROM due JOIN skid s ON s.no = due.skid_no WHERE s.ended_on IS NOT NULL)::int AS total`;
export const COUNT_ALL = `SELECT ${TOTAL}`;

/** $1 the moment, $2 skid, $3 client, $4 words, $5 site, $6 rows of the page and of those before it, $7 rows of the page, $8 rows before it. Rows of the whole list say how many there are. */
export function pageSql(day: string, standings: readonly Standing[], narrowed: Narrowed, isWhole: boolean): string {
  const all = rangesOn(day);
  const ranges = standings.map((standing) => {
    const { index, exact } = all[standing];
    return `(SELECT r.*, ${STANDINGS.indexOf(standing)} AS rank, '${standing}' AS standing FROM ${narrowed.byWords ? foundOf(index, exact) : firstOf(narrowed, index, exact)} r
      ORDER BY r.best_on, r.site_name, r.skid_name, r.task, r.id LIMIT $6::int)`;
  });
  const found = narrowed.byWords ? `${sourcesOf(narrowed)}, ` : '';
  return `WITH ${found}keys AS MATERIALIZED (SELECT * FROM (${ranges.join(' UNION ALL ')}) ranges LIMIT $7::int OFFSET $8::int)
    SELECT k.id, k.skid_id AS "skidId", k.skid_name AS "skidName", k.site_id AS "siteId", k.site_name AS "siteName", client.name AS "clientName", d.position_id AS "positionId",
           pos.name AS "positionName", k.task, k.standing, to_char(d.earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(k.best_on, 'YYYY-MM-DD') AS "bestOn",
           to_char(d.latest_on, 'YYYY-MM-DD') AS "latestOn", d."limit", d.reason, d.computed_from AS "computedFrom", d.expected_minutes AS "expectedMinutes",
           d.task_sheet_id AS "taskSheetId", job.id AS "jobId", job.no AS "jobNo"${isWhole ? `, ${TOTAL}` : ''}
      FROM keys k JOIN due d ON d.id = k.id JOIN client ON client.id = k.client_id LEFT JOIN position pos ON pos.id = d.position_id
      LEFT JOIN LATERAL (
        SELECT j.id, j.no FROM job j JOIN job_task t ON t.job_id = j.id
         WHERE j.skid_id = k.skid_id AND j.state IN ('open', 'waiting', 'under way') AND t.task = k.task AND t.position_id IS NOT DISTINCT FROM d.position_id
         ORDER BY j.no LIMIT 1
      ) job ON true
     ORDER BY k.rank, k.best_on, k.site_name, k.skid_name, k.task, k.id`;
}

/** $1 to $5 as above. */
export function countSql(day: string, narrowed: Narrowed): string {
  const { index, exact } = narrowed.standing === undefined ? { index: 'true', exact: 'true' } : rangesOn(day)[narrowed.standing];
  return `WITH ${sourcesOf(narrowed)} SELECT count(*)::int AS total FROM ${narrowed.byWords ? 'found' : 'due'} d JOIN place p ON p.no = d.skid_no WHERE ${index} AND ${exact}`;
}

/** Parts of the latest version of each sheet. */
export const PARTS_OF_SHEETS = `SELECT v.task_sheet_id AS "taskSheetId", i.id AS "itemId", i.code, i.name, trim_scale(p.quantity)::text AS quantity, i.unit
    FROM (SELECT DISTINCT ON (task_sheet_id) id, task_sheet_id FROM task_sheet_version WHERE task_sheet_id = ANY($1::uuid[]) ORDER BY task_sheet_id, no DESC) v
    JOIN task_sheet_part p ON p.version_id = v.id JOIN item i ON i.id = p.item_id ORDER BY i.code`;
