import { Injectable } from '@nestjs/common';
import { type Caller, Database, likeOf, type Reader } from '../app/index.js';
import type { JobKind, JobState } from '../shared/work.js';
import type { ReportSummary } from './core/report-summary.js';
import { jobsBesideIt } from './job-order.repository.js';

export interface JobFilter {
  readonly skidId: string | undefined;
  readonly siteId: string | undefined;
  readonly clientId: string | undefined;
  readonly visitId: string | undefined;
  readonly state: JobState | 'to do' | undefined;
  readonly kind: JobKind | undefined;
  readonly unplanned: boolean | undefined;
  readonly find: string | undefined;
  readonly limit: number;
  readonly offset: number;
}

export interface JobRow {
  readonly id: string;
  readonly no: number;
  readonly version: number;
  readonly kind: JobKind;
  readonly title: string;
  readonly request: string;
  readonly state: JobState;
  readonly stateNote: string;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly clientId: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly severity: string | null;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly visitId: string | null;
  readonly visitOn: string | null;
  readonly followsJobId: string | null;
  readonly createdAt: Date;
  readonly createdBy: string;
  readonly finishedAt: Date | null;
  readonly finishedBy: string | null;
  readonly tasks: number;
  readonly minutes: number | null;
  readonly toSettle: number;
  readonly total: number;
}

/** A visit that a client is not told of yet is not there for them: the join goes through the policy of visits. */
const selectJobs = (toSettle: string) => `
  SELECT j.id, j.no, j.version, j.kind, j.title, j.request, j.state, j.state_note AS "stateNote", s.id AS "skidId", s.name AS "skidName", site.id AS "siteId",
         site.name AS "siteName", client.id AS "clientId", client.name AS "clientName", site.time_zone AS "timeZone", b.severity,
         to_char(j.earliest_on, 'YYYY-MM-DD') AS "earliestOn", to_char(j.best_on, 'YYYY-MM-DD') AS "bestOn", to_char(j.latest_on, 'YYYY-MM-DD') AS "latestOn",
         v.id AS "visitId", to_char(v.on_day, 'YYYY-MM-DD') AS "visitOn", j.follows_job_id AS "followsJobId", j.created_at AS "createdAt", j.created_by AS "createdBy",
         j.finished_at AS "finishedAt", j.finished_by AS "finishedBy", t.tasks, t.minutes, ${toSettle} AS "toSettle", (count(*) OVER ())::int AS total
    FROM job j JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id JOIN client ON client.id = j.client_id
    LEFT JOIN breakdown b ON b.job_id = j.id LEFT JOIN visit v ON v.id = j.visit_id
    CROSS JOIN LATERAL (SELECT count(*)::int AS tasks, sum(expected_minutes)::int AS minutes FROM job_task WHERE job_id = j.id) t`;
const TO_SETTLE = `(SELECT count(*) FROM job_report r WHERE r.job_id = j.id AND r.state IN ('held', 'second'))::int`;

const selectFor = ({ clientId }: Pick<Caller, 'clientId'>) => selectJobs(clientId === null ? TO_SETTLE : '0');

export interface ReportRow {
  readonly id: string;
  readonly by: string;
  readonly startedAt: Date;
  readonly finishedAt: Date;
  readonly receivedAt: Date;
  readonly state: string;
  readonly minutes: number;
  readonly signedBy: string;
  readonly summary: ReportSummary;
  readonly problems: { pointer: string; message: string }[];
}

@Injectable()
export class JobsRepository {
  constructor(private readonly database: Database) {}

  /** Work to be done first, the worst and the earliest first; then what is done, the latest first: one query. */
  page(caller: Caller, filter: JobFilter): Promise<JobRow[]> {
    const { skidId, siteId, clientId, visitId, state, kind, unplanned, find, limit, offset } = filter;
    const like = likeOf(find);
    return this.database.readFor(caller, (reader) =>
      reader.$queryRawUnsafe<JobRow[]>(
        `${selectFor(caller)}
          WHERE ($1::uuid IS NULL OR j.skid_id = $1) AND ($2::uuid IS NULL OR j.site_id = $2) AND ($3::uuid IS NULL OR j.client_id = $3) AND ($4::uuid IS NULL OR v.id = $4)
            AND ($5::text IS NULL OR j.state = $5 OR $5 = 'to do' AND j.state NOT IN ('finished', 'dropped')) AND ($6::text IS NULL OR j.kind = $6)
            AND ($7::boolean IS NULL OR (v.id IS NULL) = $7)
            AND ($8::text IS NULL OR concat_ws(' ', j.no, j.title, j.request, s.name, site.name, client.name) ILIKE $8)
          ORDER BY j.state IN ('finished', 'dropped'), CASE b.severity WHEN 'danger' THEN 0 WHEN 'no water' THEN 1 WHEN 'less water' THEN 2 ELSE 3 END,
                   CASE WHEN j.state IN ('finished', 'dropped') THEN NULL ELSE coalesce(j.latest_on, j.best_on) END NULLS LAST, j.finished_at DESC NULLS LAST, j.no DESC
          LIMIT $9::int OFFSET $10::int`,
        skidId ?? null,
        siteId ?? null,
        clientId ?? null,
        visitId ?? null,
        state ?? null,
        kind ?? null,
        unplanned ?? null,
        like,
        limit + 1,
        offset,
      ),
    );
  }

  /** The job with all that belongs to it, in five queries. */
  read(caller: Caller, id: string) {
    return this.database.readFor(caller, async (reader) => {
      const [job] = await reader.$queryRawUnsafe<JobRow[]>(`${selectFor(caller)} WHERE j.id = $1::uuid`, id);
      if (job === undefined) return null;
      const tasks = await reader.jobTask.findMany({ where: { jobId: id }, orderBy: { place: 'asc' }, include: { position: { select: { name: true } } } });
      const changes = await reader.jobChange.findMany({ where: { jobId: id }, orderBy: [{ at: 'asc' }, { id: 'asc' }] });
      return { job, tasks, changes, beside: await jobsBesideIt(reader, id), reports: await reportsOf(reader, id, caller.clientId === null) };
    });
  }
}

/** A client may not even name the columns that are the department's. */
function reportsOf(reader: Reader, jobId: string, staff: boolean): Promise<ReportRow[]> {
  return reader.$queryRawUnsafe<ReportRow[]>(
    `SELECT id, by, started_at AS "startedAt", finished_at AS "finishedAt", received_at AS "receivedAt", state, minutes, signed_by AS "signedBy", summary,
            ${staff ? 'problems' : `'[]'::jsonb AS problems`}
       FROM job_report WHERE job_id = $1::uuid ORDER BY received_at, id`,
    jobId,
  );
}

export type JobWithAll = NonNullable<Awaited<ReturnType<JobsRepository['read']>>>;
