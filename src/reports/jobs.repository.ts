import { Injectable } from '@nestjs/common';
import { type Caller, Database, type Reader } from '../app/index.js';
import { BREAKDOWN_COLUMNS, CALIBRATION_COLUMNS, DAY, REPAIR_COLUMNS, TEST_COLUMNS } from './columns.repository.js';
import type { FileRecord, JobFacts, JobRecord, SheetRecord, VisitFacts } from './core/job-data.js';

/** What can be drawn in a PDF. */
const DRAWN = ['image/jpeg', 'image/png'];
/** More than this makes a file that nobody can send on. */
const MOST_PHOTOGRAPHS = 24;
const MOST_BYTES = 24 * 1024 * 1024;

const JOBS = `SELECT j.id, j.no, j.kind, j.title, j.request, j.state, j.state_note AS "stateNote", s.name AS "skidName", site.name AS "siteName", client.name AS "clientName",
    site.time_zone AS "timeZone", j.created_at AS "createdAt", j.created_by AS "createdBy", j.finished_at AS "finishedAt", j.finished_by AS "finishedBy"
  FROM job j JOIN skid s ON s.id = j.skid_id JOIN site ON site.id = j.site_id JOIN client ON client.id = j.client_id`;

/** What belongs to the jobs $1; every row says its job. Where staff could read more than the client, no more is read. */
const OF_JOBS = {
  tasks: `SELECT t.job_id AS "ofId", t.task, p.name AS "positionName", t.reason, ${DAY('t.due_on')} AS "dueOn", t.outcome, t.done_at AS "doneAt"
    FROM job_task t LEFT JOIN position p ON p.id = t.position_id WHERE t.job_id = ANY($1::uuid[]) ORDER BY t.place, t.id`,
  sheets: `SELECT r.job_id AS "ofId", r.id, r.by, r.started_at AS "startedAt", r.finished_at AS "finishedAt", r.minutes, r.summary, r.signed_by AS "signedBy"
    FROM job_report r WHERE r.job_id = ANY($1::uuid[]) AND r.state = 'counts' ORDER BY r.started_at, r.id`,
  told: `SELECT c.job_id AS "ofId", c.at, c.by, c.note FROM job_change c WHERE c.job_id = ANY($1::uuid[]) AND c.to_client AND c.note <> '' ORDER BY c.at, c.id`,
  breakdowns: `SELECT b.job_id AS "ofId", ${BREAKDOWN_COLUMNS} FROM breakdown b JOIN job j ON j.id = b.job_id WHERE b.job_id = ANY($1::uuid[])`,
};

/** What came with the sheets $1; every row says its sheet. */
const OF_SHEETS = {
  tests: `SELECT t.report_id AS "ofId", ${TEST_COLUMNS} FROM integrity_test t WHERE t.report_id = ANY($1::uuid[]) ORDER BY t.at`,
  repairs: `SELECT r.report_id AS "ofId", ${REPAIR_COLUMNS} FROM fibre_repair r JOIN position p ON p.id = r.position_id WHERE r.report_id = ANY($1::uuid[]) ORDER BY r.at`,
  calibrations: `SELECT c.report_id AS "ofId", ${CALIBRATION_COLUMNS} FROM calibration c JOIN position p ON p.id = c.position_id WHERE c.report_id = ANY($1::uuid[]) ORDER BY c.at`,
};

type VisitRow = Omit<VisitFacts, 'jobs'> & { readonly id: string };

/** Jobs and visits as everybody may read them, read as the caller. */
@Injectable()
export class ReportedJobsRepository {
  constructor(private readonly database: Database) {}

  async job(caller: Caller, jobId: string): Promise<JobFacts | undefined> {
    const jobs = await this.database.readFor(caller, (reader) => jobsWhere(reader, 'j.id = $1::uuid', jobId));
    return jobs[0];
  }

  visit(caller: Caller, visitId: string): Promise<VisitFacts | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const [visit] = await reader.$queryRawUnsafe<VisitRow[]>(
        `SELECT v.id, v.no, ${DAY('v.on_day')} AS "onDay", v.start_time AS "startTime", v.minutes, v.state, v.note_to_client AS "noteToClient", site.name AS "siteName",
                client.name AS "clientName", site.time_zone AS "timeZone", ARRAY(SELECT p.name FROM visit_person p WHERE p.visit_id = v.id ORDER BY p.name) AS people
           FROM visit v JOIN site ON site.id = v.site_id JOIN client ON client.id = v.client_id WHERE v.id = $1::uuid`,
        visitId,
      );
      return visit && { ...visit, jobs: await jobsWhere(reader, 'j.visit_id = $1::uuid', visitId) };
    });
  }
}

async function jobsWhere(reader: Reader, condition: string, id: string): Promise<JobFacts[]> {
  const jobs = await reader.$queryRawUnsafe<JobRecord[]>(`${JOBS} WHERE ${condition} ORDER BY j.no`, id);
  const jobIds = jobs.map((job) => job.id);
  const parts = await readAll(reader, OF_JOBS, jobIds);
  const sheets = jobIds.flatMap((jobId) => parts.sheets(jobId)) as SheetRecord[];
  const sheetIds = sheets.map((sheet) => sheet.id);
  const proofs = await readAll(reader, OF_SHEETS, sheetIds);
  const files = await filesOf(reader, [...jobIds, ...sheetIds]);
  return jobs.map((job) => {
    const own = (parts.sheets(job.id) as SheetRecord[]).map(
      (sheet) => ({ ...sheet, tests: proofs.tests(sheet.id), repairs: proofs.repairs(sheet.id), calibrations: proofs.calibrations(sheet.id) }) as SheetRecord,
    );
    const jobFiles = [job.id, ...own.map((sheet) => sheet.id)].flatMap((ofId) => files.get(ofId) ?? []);
    return {
      job,
      tasks: parts.tasks(job.id),
      told: parts.told(job.id),
      breakdowns: parts.breakdowns(job.id),
      sheets: own,
      files: jobFiles,
    } as unknown as JobFacts;
  });
}

type Owned = { readonly ofId: string };

/** One query for each part, and the rows of each owner. */
async function readAll<Part extends string>(
  reader: Reader,
  queries: Record<Part, string>,
  ids: readonly string[],
): Promise<Record<Part, (id: string) => object[]>> {
  const found: [string, (id: string) => object[]][] = [];
  for (const [part, sql] of Object.entries<string>(queries)) {
    const rows = ids.length === 0 ? [] : await reader.$queryRawUnsafe<Owned[]>(sql, ids);
    found.push([part, (id) => rows.filter(({ ofId }) => ofId === id).map(({ ofId: _, ...row }) => row)]);
  }
  return Object.fromEntries(found) as Record<Part, (id: string) => object[]>;
}

type FileRow = Owned & Omit<FileRecord, 'content'> & { readonly id: string; readonly mediaType: string; readonly bytes: number };

/** Files by what they belong to, the oldest first; the content of as many photographs as a report can carry. Files of staff alone are left out. */
async function filesOf(reader: Reader, ids: readonly string[]): Promise<Map<string, FileRecord[]>> {
  const byOwner = new Map<string, FileRecord[]>();
  if (ids.length === 0) return byOwner;
  const rows = await reader.$queryRawUnsafe<FileRow[]>(
    `SELECT a.of_id AS "ofId", a.id, a.name, a.by, a.at, a.media_type AS "mediaType", a.bytes FROM attachment a
      WHERE a.of_kind IN ('job', 'report') AND a.of_id = ANY($1::uuid[]) AND a.client_id IS NOT NULL ORDER BY a.at, a.id`,
    ids,
  );
  const contents = await contentsOf(reader, drawnOf(rows));
  for (const { ofId, id, name, by, at } of rows) {
    const known = byOwner.get(ofId) ?? [];
    known.push({ name, by, at, content: contents.get(id) ?? null });
    byOwner.set(ofId, known);
  }
  return byOwner;
}

function drawnOf(rows: readonly FileRow[]): string[] {
  let bytes = 0;
  const chosen: string[] = [];
  for (const row of rows) {
    if (!DRAWN.includes(row.mediaType) || chosen.length === MOST_PHOTOGRAPHS || bytes + row.bytes > MOST_BYTES) continue;
    bytes += row.bytes;
    chosen.push(row.id);
  }
  return chosen;
}

async function contentsOf(reader: Reader, ids: readonly string[]): Promise<Map<string, Uint8Array>> {
  const rows = await reader.attachment.findMany({ where: { id: { in: [...ids] } }, select: { id: true, content: true } });
  return new Map(rows.map(({ id, content }) => [id, content]));
}
