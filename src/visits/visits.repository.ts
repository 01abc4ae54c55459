import { type Caller, likeOf, type Reader, readCursor } from '../app/index.js';
import type { JobKind, JobState, VisitState } from '../shared/work.js';
import type { VisitsQuery } from './visits.dto.js';

export interface VisitRow {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
  readonly clientName: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly timeZone: string;
  readonly accessHours: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly breakMinutes: number;
  readonly minutesGiven: boolean | null;
  readonly state: VisitState;
  readonly note: string | null;
  readonly noteToClient: string;
  readonly promisedAt: Date | null;
  readonly finishedAt: Date | null;
  readonly version: number;
}

export interface PersonOfVisit {
  readonly visitId: string;
  readonly personId: string;
  readonly name: string;
}

export interface JobOfVisit {
  readonly visitId: string;
  readonly id: string;
  readonly no: number;
  readonly title: string;
  readonly kind: JobKind;
  readonly state: JobState;
  readonly skidId: string;
  readonly skidName: string;
  readonly latestOn: string | null;
}

export interface VisitWithAll extends VisitRow {
  readonly people: readonly PersonOfVisit[];
  readonly jobs: readonly JobOfVisit[];
}

/** A client has no right to the note of the department: the column is not even named. */
const columnsFor = ({ clientId }: Pick<Caller, 'clientId'>) => `
  v.id, v.no, v.client_id AS "clientId", client.name AS "clientName", v.site_id AS "siteId", site.name AS "siteName", site.time_zone AS "timeZone",
  site.access_hours AS "accessHours", to_char(v.on_day, 'YYYY-MM-DD') AS "onDay", v.start_time AS "startTime", v.minutes, v.break_minutes AS "breakMinutes", v.state, v.note_to_client AS "noteToClient",
  v.promised_at AS "promisedAt", v.finished_at AS "finishedAt", v.version,
  ${clientId === null ? 'v.note, v.minutes_given AS "minutesGiven"' : 'NULL AS note, NULL AS "minutesGiven"'}`;
const FROM = 'FROM visit v JOIN site ON site.id = v.site_id JOIN client ON client.id = v.client_id';

/** Visits in the order in which they take place. */
export async function visitsPage(reader: Reader, caller: Caller, query: VisitsQuery): Promise<VisitWithAll[]> {
  const { from, to, personId, siteId, clientId, skidId, state, find, cursor, limit } = query;
  const behind = readCursor(cursor, 3)?.map(String) ?? [null, null, null];
  const rows = await reader.$queryRawUnsafe<VisitRow[]>(
    `SELECT ${columnsFor(caller)} ${FROM}
      WHERE ($1::date IS NULL OR v.on_day >= $1::date) AND ($2::date IS NULL OR v.on_day <= $2::date)
        AND ($3::uuid IS NULL OR EXISTS (SELECT 1 FROM visit_person p WHERE p.visit_id = v.id AND p.person_id = $3)) AND ($4::uuid IS NULL OR v.site_id = $4)
        AND ($5::uuid IS NULL OR v.client_id = $5) AND ($6::uuid IS NULL OR EXISTS (SELECT 1 FROM job j WHERE j.visit_id = v.id AND j.skid_id = $6))
        AND ($7::text IS NULL OR v.state = $7) AND ($8::text IS NULL OR concat_ws(' ', v.no, site.name, client.name) ILIKE $8)
        AND ($9::text IS NULL OR (to_char(v.on_day, 'YYYY-MM-DD'), v.start_time, v.id::text) > ($9, $10::text, $11::text))
      ORDER BY v.on_day, v.start_time, v.id LIMIT $12::int`,
    from ?? null,
    to ?? null,
    personId ?? null,
    siteId ?? null,
    clientId ?? null,
    skidId ?? null,
    state ?? null,
    likeOf(find),
    ...behind,
    limit + 1,
  );
  return withAll(reader, rows);
}

export async function findVisit(reader: Reader, caller: Pick<Caller, 'clientId'>, id: string): Promise<VisitWithAll | null> {
  const rows = await reader.$queryRawUnsafe<VisitRow[]>(`SELECT ${columnsFor(caller)} ${FROM} WHERE v.id = $1::uuid`, id);
  return (await withAll(reader, rows))[0] ?? null;
}

/** Visits with work still to be done, of one person or of all, in the order in which they take place. */
export async function openVisits(reader: Reader, from: string, to: string, personId: string | null): Promise<VisitWithAll[]> {
  const rows = await reader.$queryRawUnsafe<VisitRow[]>(
    `SELECT ${columnsFor({ clientId: null })} ${FROM}
      WHERE v.state IN ('planned', 'promised', 'under way') AND v.on_day >= $1::date AND v.on_day <= $2::date
        AND ($3::uuid IS NULL OR EXISTS (SELECT 1 FROM visit_person p WHERE p.visit_id = v.id AND p.person_id = $3))
      ORDER BY v.on_day, v.start_time, v.id`,
    from,
    to,
    personId,
  );
  return withAll(reader, rows);
}

/** With people and jobs, in one statement each. */
async function withAll(reader: Reader, visits: readonly VisitRow[]): Promise<VisitWithAll[]> {
  const ids = visits.map(({ id }) => id);
  const people = await reader.$queryRaw<PersonOfVisit[]>`
    SELECT visit_id AS "visitId", person_id AS "personId", name FROM visit_person WHERE visit_id = ANY(${ids}::uuid[]) ORDER BY name, person_id`;
  const jobs = await reader.$queryRaw<JobOfVisit[]>`
    SELECT j.visit_id AS "visitId", j.id, j.no, j.title, j.kind, j.state, j.skid_id AS "skidId", s.name AS "skidName", to_char(j.latest_on, 'YYYY-MM-DD') AS "latestOn"
      FROM job j JOIN skid s ON s.id = j.skid_id WHERE j.visit_id = ANY(${ids}::uuid[]) ORDER BY s.name, j.no`;
  return visits.map((visit) => ({
    ...visit,
    people: people.filter(({ visitId }) => visitId === visit.id),
    jobs: jobs.filter(({ visitId }) => visitId === visit.id),
  }));
}

/** What was done with a visit, in the order in which it was; a client's rows are what was told them. */
export const changesOf = (reader: Reader, visitId: string) => reader.visitChange.findMany({ where: { visitId }, orderBy: { id: 'asc' } });
