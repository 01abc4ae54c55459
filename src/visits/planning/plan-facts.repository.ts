import type pg from 'pg';
import type { Reader } from '../../app/index.js';
import type { VisitState } from '../../shared/work.js';
import type { SiteFacts, VisitFacts, WorkFacts } from '../core/plan-facts/facts.js';

export interface WorkRow extends WorkFacts {
  /** Of the forecasts that all of it comes from; null: some of it comes from elsewhere */
  readonly outlookIds: readonly string[] | null;
  /** A sheet says what some of it takes */
  readonly hasSheet: boolean;
}

type FoundRow = Omit<WorkRow, 'kind' | 'partsFromOn'>;

/** Jobs that can begin and are in no visit to come, with what their tasks take; a job without tasks counts as one of unknown time. */
export async function jobsToPlace(reader: Reader): Promise<WorkRow[]> {
  const rows = await reader.$queryRaw<FoundRow[]>`
    SELECT j.id, j.site_id AS "siteId", 'Job ' || j.no || ': ' || j.title || ', ' || s.name AS text, coalesce(b.severity IN ('danger', 'no water'), false) AS urgent,
           to_char(j.earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(j.best_on, 'YYYY-MM-DD') AS "bestOn", to_char(j.latest_on, 'YYYY-MM-DD') AS "latestOn", t.tasks, t."outlookIds",
           coalesce(t."hasSheet", false) AS "hasSheet", coalesce(t."waterOffMinutes", 0)::int AS "waterOffMinutes",
           coalesce((SELECT jsonb_agg(jsonb_build_object('id', a.id, 'no', a.no, 'waits', a.state = 'waiting', 'visit',
                CASE WHEN w.id IS NOT NULL THEN jsonb_build_object('id', w.id, 'onDay', to_char(w.on_day, 'YYYY-MM-DD')) END) ORDER BY a.no)
              FROM job a LEFT JOIN visit w ON w.id = a.visit_id AND w.state NOT IN ('finished', 'called off')
             WHERE a.id = j.after_job_id AND a.state NOT IN ('finished', 'dropped')), '[]') AS after
      FROM job j JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id AND site.ended_on IS NULL LEFT JOIN breakdown b ON b.job_id = j.id
      LEFT JOIN visit v ON v.id = j.visit_id AND v.state NOT IN ('finished', 'called off')
      CROSS JOIN LATERAL (
        SELECT coalesce(jsonb_agg(jsonb_build_object('minutes', coalesce(t.expected_minutes, v.usual_minutes), 'crew', coalesce(v.crew, 1),
                 'skills', to_jsonb(coalesce(v.skills || v.certificates, '{}')))), '[{"minutes": null, "crew": 1, "skills": []}]') AS tasks,
               CASE WHEN bool_and(t.outlook_id IS NOT NULL) THEN array_agg(DISTINCT t.outlook_id::text) END AS "outlookIds",
               bool_or(v.id IS NOT NULL) AS "hasSheet", sum(v.water_off_minutes) AS "waterOffMinutes"
          FROM job_task t LEFT JOIN task_sheet_version v ON v.id = t.sheet_version_id WHERE t.job_id = j.id AND t.outcome IS DISTINCT FROM 'done') t
     WHERE j.state = 'open' AND v.id IS NULL ORDER BY j.no`;
  return rows.map((row) => ({ ...row, kind: 'job', partsFromOn: null }));
}

interface DueRow extends Pick<WorkRow, 'id' | 'siteId' | 'text' | 'earliestOn' | 'bestOn' | 'latestOn' | 'hasSheet' | 'waterOffMinutes'> {
  readonly minutes: number | null;
  readonly crew: number;
  readonly skills: readonly string[];
  readonly outlookId: string | null;
}

/** Dues whose best day comes by a day and that no job holds, with what their sheets say. They are thousands: rows of `pg` itself are read several times sooner. */
export async function duesToPlace(pool: pg.Pool, until: string): Promise<WorkRow[]> {
  const { rows } = await pool.query<DueRow>(
    `SELECT d.id, s.site_id AS "siteId", concat_ws(', ', d.task, p.name, s.name) AS text, d.earliest_on::text AS "earliestOn", d.best_on::text AS "bestOn", d.latest_on::text AS "latestOn",
            coalesce(d.expected_minutes, v.usual_minutes) AS minutes, coalesce(v.crew, 1) AS crew, coalesce(v.skills || v.certificates, '{}') AS skills, d.outlook_id AS "outlookId",
            v.id IS NOT NULL AS "hasSheet", coalesce(v.water_off_minutes, 0) AS "waterOffMinutes"
       FROM due d JOIN skid s ON s.no = d.skid_no AND s.ended_on IS NULL LEFT JOIN position p ON p.id = d.position_id
       LEFT JOIN (SELECT DISTINCT ON (task_sheet_id) * FROM task_sheet_version ORDER BY task_sheet_id, no DESC) v ON v.task_sheet_id = d.task_sheet_id
      WHERE d.best_on <= $1::date AND NOT EXISTS (
        SELECT 1 FROM job j JOIN job_task t ON t.job_id = j.id
         WHERE j.skid_id = s.id AND j.state NOT IN ('finished', 'dropped') AND t.outcome IS NULL AND t.task = d.task AND t.position_id IS NOT DISTINCT FROM d.position_id)
      ORDER BY d.best_on, d.id`,
    [until],
  );
  return rows.map(({ id, siteId, text, earliestOn, bestOn, latestOn, minutes, crew, skills, outlookId, ...same }) => {
    const [tasks, outlookIds] = [[{ minutes, crew, skills }], outlookId === null ? null : [outlookId]];
    return { kind: 'due', id, siteId, text, urgent: false, earliestOn, bestOn, latestOn, tasks, outlookIds, ...same, partsFromOn: null };
  });
}

/** Position null: it is not known, and nobody can be sent there. */
export interface SiteRow extends Omit<SiteFacts, 'latitude' | 'longitude'> {
  readonly latitude: number | null;
  readonly longitude: number | null;
}

/** Sites that have not ended, with how people get in. */
export async function sitesOfPlan(pool: pg.Pool): Promise<SiteRow[]> {
  const { rows } = await pool.query<SiteRow>(
    `SELECT s.id, s.name, s.latitude, s.longitude, coalesce(p.windows, '[]') AS windows, coalesce(p.extra_minutes, 0) AS "extraMinutes", coalesce(p.may_work_alone, true) AS "mayWorkAlone",
            coalesce(p.notice_days, 0) AS "noticeDays", coalesce(p.inductions, '{}') AS inductions, p.ferry, coalesce(p.open_months, '{}') AS "openMonths"
       FROM site s LEFT JOIN site_planning p ON p.site_id = s.id WHERE s.ended_on IS NULL ORDER BY s.name, s.id`,
  );
  return rows;
}

export interface PartRow {
  readonly workId: string;
  readonly jobId: string | null;
  readonly itemId: string;
  readonly name: string;
  readonly quantity: number;
}

/** What the sheets of jobs and dues take. */
export const partsOfWork = (reader: Reader, jobIds: readonly string[], dueIds: readonly string[]): Promise<PartRow[]> =>
  reader.$queryRaw<PartRow[]>`
    WITH asked AS (
      SELECT t.job_id AS work_id, t.job_id, t.sheet_version_id AS version_id FROM job_task t WHERE t.job_id = ANY(${jobIds}::uuid[]) AND t.outcome IS DISTINCT FROM 'done'
      UNION ALL
      SELECT d.id, NULL, v.id FROM due d CROSS JOIN LATERAL (SELECT id FROM task_sheet_version WHERE task_sheet_id = d.task_sheet_id ORDER BY no DESC LIMIT 1) v
       WHERE d.id = ANY(${dueIds}::uuid[]))
    SELECT a.work_id AS "workId", a.job_id AS "jobId", p.item_id AS "itemId", i.code || ' ' || i.name AS name, sum(p.quantity)::float8 AS quantity
      FROM asked a JOIN task_sheet_part p ON p.version_id = a.version_id JOIN item i ON i.id = p.item_id GROUP BY 1, 2, 3, 4 ORDER BY 1, 3`;

/** A visit that somebody has planned, with what its work asks for. */
export interface VisitToKeep extends Omit<VisitFacts, 'promised' | 'stays' | 'partsFromOn'> {
  readonly no: number;
  readonly state: VisitState;
  readonly version: number;
  readonly timeZone: string;
  readonly personNames: readonly string[];
}

/** Visits with work still to be done, from one day to another. */
export const visitsToKeep = (reader: Reader, from: string, until: string): Promise<VisitToKeep[]> =>
  reader.$queryRaw<VisitToKeep[]>`
    SELECT v.id, v.no, v.state, v.version, v.site_id AS "siteId", site.time_zone AS "timeZone", 'Visit ' || v.no || ', ' || v.state AS text,
           to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes, p."personIds", p."personNames",
           to_char(j.earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(j.latest_on, 'YYYY-MM-DD') AS "latestOn",
           ARRAY(SELECT DISTINCT unnest(s.skills || s.certificates) FROM job k JOIN job_task t ON t.job_id = k.id JOIN task_sheet_version s ON s.id = t.sheet_version_id
                  WHERE k.visit_id = v.id AND k.state NOT IN ('finished', 'dropped') AND t.outcome IS DISTINCT FROM 'done' ORDER BY 1) AS skills,
           coalesce((SELECT jsonb_agg(jsonb_build_object('id', a.id, 'no', a.no, 'waits', a.state = 'waiting', 'visit',
                CASE WHEN w.id IS NOT NULL THEN jsonb_build_object('id', w.id, 'onDay', to_char(w.on_day, 'YYYY-MM-DD')) END) ORDER BY a.no)
              FROM job a LEFT JOIN visit w ON w.id = a.visit_id AND w.state NOT IN ('finished', 'called off')
             WHERE a.visit_id IS DISTINCT FROM v.id AND a.state NOT IN ('finished', 'dropped')
               AND a.id IN (SELECT after_job_id FROM job WHERE visit_id = v.id AND state NOT IN ('finished', 'dropped'))), '[]') AS after
      FROM visit v JOIN site ON site.id = v.site_id AND site.ended_on IS NULL
      CROSS JOIN LATERAL (SELECT coalesce(array_agg(person_id::text ORDER BY person_id), '{}') AS "personIds", coalesce(array_agg(name ORDER BY person_id), '{}') AS "personNames"
                            FROM visit_person WHERE visit_id = v.id) p
      CROSS JOIN LATERAL (SELECT max(earliest_on) AS earliest_on, min(latest_on) AS latest_on FROM job WHERE visit_id = v.id AND state NOT IN ('finished', 'dropped')) j
     WHERE v.state IN ('planned', 'promised', 'under way') AND v.on_day BETWEEN ${from}::date AND ${until}::date ORDER BY v.on_day, v.no`;
