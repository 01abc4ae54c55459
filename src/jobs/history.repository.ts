import { createHash } from 'node:crypto';
import { newId, type Reader } from '../app/index.js';
import type { Doer, SkidOfWork } from './breakdown-rows.repository.js';
import type { ReadOldWork } from './core/breakdown/old-work.js';
import type { ReportSummary } from './core/report-summary.js';

export interface SkidOfHistory extends SkidOfWork {
  readonly name: string;
  readonly timeZone: string;
}

/** The skid, held until the transaction ends: the same record sent twice at once is stored once. */
export async function holdSkid(tx: Reader, id: string): Promise<SkidOfHistory | undefined> {
  const [skid] = await tx.$queryRaw<SkidOfHistory[]>`
    SELECT s.id, s.name, s.client_id AS "clientId", s.site_id AS "siteId", site.time_zone AS "timeZone"
      FROM skid s JOIN site ON site.id = s.site_id WHERE s.id = ${id}::uuid FOR UPDATE OF s`;
  return skid;
}

/** Title and end of the finished jobs of the skid with one of the titles. */
export const finishedJobs = (tx: Reader, skidId: string, titles: readonly string[]) =>
  tx.$queryRaw<{ title: string; finishedAt: Date }[]>`
    SELECT title, finished_at AS "finishedAt" FROM job WHERE skid_id = ${skidId}::uuid AND state = 'finished' AND title = ANY(${[...titles]}::text[])`;

/** Finished jobs with their task, what is known of their failure and the time they took: each table in one statement, however many. */
export async function storeOldJobs(
  tx: Reader,
  skid: SkidOfWork,
  work: readonly ReadOldWork[],
  { by, at, loadNo }: { by: Doer & { id: string }; at: Date; loadNo: number },
): Promise<void> {
  const rows = work.map((row) => ({ ...row, id: newId() }));
  const all = { client_id: skid.clientId };
  await insert(
    tx,
    'job',
    rows.map(({ id, kind, title, note, at: done, by: doneBy }) => {
      const ended = { state: 'finished', finished_at: done, finished_by: doneBy };
      return {
        ...all,
        id,
        site_id: skid.siteId,
        skid_id: skid.id,
        kind,
        title,
        request: note,
        ...ended,
        created_at: done,
        created_by_id: by.id,
        created_by: by.name,
      };
    }),
  );
  await insert(
    tx,
    'job_task',
    rows.map(({ id, title, kind, positionId, at: done }) => {
      const task = { task: title, kind: kind === 'breakdown' ? 'repair' : 'service', position_id: positionId };
      return { ...all, id: newId(), job_id: id, place: 1, ...task, outcome: 'done', done_at: done };
    }),
  );
  const change = { at, by_id: by.id, by: by.name, what: 'state', to: 'finished', note: 'From an older record', to_client: true };
  await insert(
    tx,
    'job_change',
    rows.map(({ id }) => ({ ...all, job_id: id, ...change })),
  );
  await insert(
    tx,
    'breakdown',
    rows.flatMap(({ id, failure, at: noticed, minutes, positionId }) => {
      if (failure === null) return [];
      const { severity, downFrom, restoredAt, failureMode, mechanism, cause, remedy } = failure;
      const times = { noticed_at: noticed, down_from: downFrom, restored_at: restoredAt, repair_minutes: minutes };
      const found = { failure_mode: failureMode, mechanism, cause, remedy, position_id: positionId };
      return [{ ...all, job_id: id, skid_id: skid.id, severity, source: 'staff', ended_by: 'visit', ...times, ...found }];
    }),
  );
  await insert(
    tx,
    'job_report',
    rows.flatMap(({ minutes, ...row }) => (minutes === null ? [] : [{ ...all, ...reportOf({ ...row, minutes }, at), by_id: by.id, load_no: loadNo }])),
  );
}

/** A report that counts, so that the time is reckoned like that of any other job. */
function reportOf({ id, at: done, by, title, note, minutes }: ReadOldWork & { readonly id: string; readonly minutes: number }, received: Date) {
  const content = { fromOlderRecord: true, at: done, title, minutes };
  const contentHash = createHash('sha256').update(JSON.stringify(content)).digest('hex');
  const summary: ReportSummary = { tasks: [{ task: title, positionName: null, outcome: 'done', note: '', steps: [] }], lines: [], note };
  const times = { started_at: new Date(done.getTime() - minutes * 60_000), finished_at: done, received_at: received };
  return { id: newId(), job_id: id, by, ...times, state: 'counts', minutes, content, content_hash: contentHash, summary };
}

async function insert(tx: Reader, table: 'job' | 'job_task' | 'job_change' | 'breakdown' | 'job_report', rows: readonly object[]): Promise<void> {
  const [first] = rows;
  if (first === undefined) return;
  const columns = Object.keys(first)
    .map((column) => `"${column}"`)
    .join(', ');
  await tx.$executeRawUnsafe(
    `INSERT INTO ${table} (${columns}) SELECT ${columns} FROM jsonb_populate_recordset(NULL::${table}, $1::jsonb)`,
    JSON.stringify(rows),
  );
}
