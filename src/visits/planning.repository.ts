import type { Reader } from '../app/index.js';
import type { BreakOfPerson, JobAfter, PlannedTask } from './core/consequences.js';

/** What is still to be done at a visit: tasks with their usual time and crew; a job without tasks counts as one of unknown time. */
export const tasksToDo = (reader: Reader, visitId: string): Promise<PlannedTask[]> =>
  reader.$queryRaw<PlannedTask[]>`
    SELECT coalesce(t.task, j.title) AS task, s.name AS "skidName", to_char(j.earliest_on, 'YYYY-MM-DD') AS "earliestOn",
           to_char(coalesce(t.latest_on, j.latest_on), 'YYYY-MM-DD') AS "latestOn", coalesce(t.expected_minutes, v.usual_minutes) AS minutes, coalesce(v.crew, 1) AS crew,
           ARRAY(SELECT DISTINCT c ->> 'chemical' FROM jsonb_array_elements(coalesce(v.chemicals, '[]')) c ORDER BY 1) AS chemicals
      FROM job j JOIN skid s ON s.id = j.skid_id LEFT JOIN job_task t ON t.job_id = j.id LEFT JOIN task_sheet_version v ON v.id = t.sheet_version_id
     WHERE j.visit_id = ${visitId}::uuid AND j.state NOT IN ('finished', 'dropped') AND t.outcome IS DISTINCT FROM 'done' ORDER BY s.name, j.no, t.place`;

interface JobAfterRow extends Omit<JobAfter, 'held'> {
  readonly held: JobAfter['held'] | null;
}

/** What is still to be done at a visit after a job that is to be done as well, and not at this visit. */
export async function jobsAfterOthers(reader: Reader, visitId: string): Promise<JobAfter[]> {
  const rows = await reader.$queryRaw<JobAfterRow[]>`
    SELECT j.no, o.no AS "afterNo", o.state AS "afterState", o.state_note AS "afterNote",
           CASE WHEN v.id IS NOT NULL THEN jsonb_build_object('no', v.no, 'onDay', to_char(v.on_day, 'YYYY-MM-DD'), 'startTime', v.start_time, 'timeZone', site.time_zone) END AS held
      FROM job j JOIN job o ON o.id = j.after_job_id LEFT JOIN visit v ON v.id = o.visit_id LEFT JOIN site ON site.id = v.site_id
     WHERE j.visit_id = ${visitId}::uuid AND j.state NOT IN ('finished', 'dropped') AND o.state NOT IN ('finished', 'dropped')
       AND o.visit_id IS DISTINCT FROM j.visit_id ORDER BY j.no`;
  return rows.map(({ held, ...job }) => (held === null ? job : { ...job, held }));
}

export interface OtherVisitRow {
  readonly no: number;
  readonly siteId: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly personId: string;
  readonly personName: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly breakMinutes: number;
}

/** Other visits of these people around a day: by the day of another zone, and some of them take several days. */
export const otherVisitsOf = (reader: Reader, personIds: readonly string[], onDay: string, visitId: string): Promise<OtherVisitRow[]> =>
  reader.$queryRaw<OtherVisitRow[]>`
    SELECT v.no, v.site_id AS "siteId", site.name AS "siteName", site.time_zone AS "timeZone", p.person_id AS "personId", p.name AS "personName", to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes, v.break_minutes AS "breakMinutes"
      FROM visit_person p JOIN visit v ON v.id = p.visit_id JOIN site ON site.id = v.site_id
     WHERE p.person_id = ANY(${[...personIds]}::uuid[]) AND v.id <> ${visitId}::uuid AND v.state <> 'called off'
       AND v.on_day BETWEEN ${onDay}::date - 15 AND ${onDay}::date + 15 ORDER BY v.on_day, v.start_time, p.name`;

/** The breaks that planning knows of these people. */
export const breaksOf = (reader: Reader, personIds: readonly string[]): Promise<BreakOfPerson[]> =>
  reader.$queryRaw<BreakOfPerson[]>`
    SELECT p.id AS "personId", p.name AS "personName", t.break_minutes AS minutes, t.break_from AS "from", t.break_until AS "until"
      FROM person_planning t JOIN person p ON p.id = t.person_id WHERE t.person_id = ANY(${[...personIds]}::uuid[]) AND t.break_minutes IS NOT NULL ORDER BY p.name, p.id`;

/** The site, when it has not ended; kept so until the end of the transaction. */
export async function openSiteOf(tx: Reader, id: string) {
  const rows = await tx.$queryRaw<{ id: string; clientId: string; name: string; timeZone: string }[]>`
    SELECT id, client_id AS "clientId", name, time_zone AS "timeZone" FROM site WHERE id = ${id}::uuid AND ended_on IS NULL FOR SHARE`;
  return rows[0] ?? null;
}

export const peopleOf = (reader: Reader, ids: readonly string[]) =>
  reader.person.findMany({ where: { id: { in: [...ids] } }, select: { id: true, name: true, role: true, endedAt: true } });

export interface TaskWithSheet {
  readonly visitId: string;
  readonly task: string;
  /** Null: it has no sheet */
  readonly sheetVersionId: string | null;
}

/** The sheets of what is still to be done at these visits; a job without tasks counts as one without a sheet. */
export const sheetVersionsOf = (reader: Reader, visitIds: readonly string[]): Promise<TaskWithSheet[]> =>
  reader.$queryRaw<TaskWithSheet[]>`
    SELECT j.visit_id AS "visitId", coalesce(t.task, j.title) AS task, t.sheet_version_id AS "sheetVersionId" FROM job j LEFT JOIN job_task t ON t.job_id = j.id
     WHERE j.visit_id = ANY(${[...visitIds]}::uuid[]) AND j.state NOT IN ('finished', 'dropped') AND t.outcome IS DISTINCT FROM 'done' ORDER BY j.no, t.place`;
