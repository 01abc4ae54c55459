import { DomainError, type Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { ReportProblem } from './core/judge-report.js';

export type ReportState = 'counts' | 'held' | 'second' | 'set aside';

export const findReport = (reader: Reader, id: string) => reader.jobReport.findUnique({ where: { id } });

export type StoredReport = NonNullable<Awaited<ReturnType<typeof findReport>>>;

/** The report by which the job was finished, or gone on with last. */
export const lastCounting = (reader: Reader, jobId: string) =>
  reader.jobReport.findFirst({ where: { jobId, state: 'counts' }, orderBy: [{ receivedAt: 'desc' }, { id: 'desc' }] });

export async function storeReport(tx: Reader, report: Prisma.JobReportUncheckedCreateInput): Promise<void> {
  await tx.jobReport.create({ data: report, select: { id: true } });
}

/** What was held is told anew. */
export async function storeAgain(tx: Reader, { id, ...report }: Prisma.JobReportUncheckedCreateInput): Promise<void> {
  await tx.jobReport.update({ where: { id }, data: report, select: { id: true } });
}

/** As JSON of the database: half a surrogate pair, which a keyboard of symbols may leave, is no text there. */
export function toJson(value: object): object {
  return JSON.parse(JSON.stringify(value, (_, part: unknown) => (typeof part === 'string' ? part.replaceAll(/[\uD800-\uDFFF]/gu, '\uFFFD') : part))) as object;
}

export async function settleReport(tx: Reader, id: string, data: Prisma.JobReportUncheckedUpdateInput): Promise<void> {
  await tx.jobReport.update({ where: { id }, data, select: { id: true } });
}

export interface TaskOutcome {
  readonly taskId: string;
  readonly outcome: 'done' | 'not done';
}

export async function setOutcomes(tx: Reader, jobId: string, outcomes: readonly TaskOutcome[], at: Date): Promise<void> {
  for (const outcome of ['done', 'not done'] as const) {
    const ids = outcomes.filter((each) => each.outcome === outcome).map(({ taskId }) => taskId);
    if (ids.length > 0) await tx.jobTask.updateMany({ where: { jobId, id: { in: ids } }, data: { outcome, doneAt: outcome === 'done' ? at : null } });
  }
}

export async function clearOutcomes(tx: Reader, jobId: string, taskIds: readonly string[]): Promise<void> {
  await tx.jobTask.updateMany({ where: { jobId, id: { in: [...taskIds] } }, data: { outcome: null, doneAt: null } });
}

/** Jobs of these titles that follow the job and that nobody has planned or begun. */
export const untouchedFollowUps = (reader: Reader, jobId: string, titles: readonly string[]) =>
  reader.job.findMany({
    where: { followsJobId: jobId, title: { in: [...titles] }, state: 'open', visitId: null },
    select: { id: true, clientId: true, skidId: true },
  });

/** Dues that the tasks answer are over at once; the recomputation that follows says what comes next. */
export async function endDues(tx: Reader, skidId: string, tasks: readonly { positionId: string | null; task: string }[]): Promise<void> {
  if (tasks.length === 0) return;
  await tx.$executeRaw`
    DELETE FROM due d USING skid s, jsonb_to_recordset(${JSON.stringify(tasks.map(({ positionId, task }) => ({ positionId, task })))}::jsonb) AS t("positionId" uuid, task text)
     WHERE s.id = ${skidId}::uuid AND d.skid_no = s.no AND d.task = t.task AND d.position_id IS NOT DISTINCT FROM t."positionId"`;
}

export async function postsOfReport(tx: Reader, reportId: string): Promise<string[]> {
  const posts = await tx.stockPost.findMany({ where: { reportId, reverses: null }, orderBy: { enteredAt: 'desc' }, select: { id: true } });
  const reversed = await tx.stockPost.findMany({ where: { reverses: { in: posts.map(({ id }) => id) } }, select: { reverses: true } });
  return posts.map(({ id }) => id).filter((id) => !reversed.some(({ reverses }) => reverses === id));
}

/** Steps that are undone together when they find a problem, while the transaction goes on. */
export async function attempt(tx: Reader, work: () => Promise<readonly ReportProblem[]>): Promise<readonly ReportProblem[]> {
  await tx.$executeRawUnsafe('SAVEPOINT attempt');
  const problems = await work().catch((error: unknown) => {
    // A refusal of a stage that was asked, in its own words.
    if (!(error instanceof DomainError)) throw error;
    return error.fields.length === 0 ? [{ pointer: '#', message: error.message }] : error.fields;
  });
  await tx.$executeRawUnsafe(problems.length === 0 ? 'RELEASE SAVEPOINT attempt' : 'ROLLBACK TO SAVEPOINT attempt');
  return problems;
}
