import type { Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { JobKind, JobState } from '../shared/work.js';

export interface NewTask {
  readonly task: string;
  readonly kind: string;
  readonly positionId: string | null;
  readonly sheetVersionId: string | null;
  readonly ruleId: string | null;
  readonly outlookId: string | null;
  readonly reason: string;
  readonly dueOn: string | null;
  readonly latestOn: string | null;
  readonly expectedMinutes: number | null;
}

export interface NewJob {
  readonly id: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly kind: JobKind;
  readonly title: string;
  readonly request: string;
  readonly followsJobId: string | null;
  readonly afterJobId?: string | null;
  readonly earliestOn: string | null;
  readonly bestOn: string | null;
  readonly latestOn: string | null;
  readonly tasks: readonly NewTask[];
}

const toDate = (day: string | null): Date | null => (day === null ? null : new Date(`${day}T00:00:00Z`));

export async function createJobs(
  tx: Reader,
  { id: createdById, name }: { readonly id: string | null; readonly name: string },
  jobs: readonly NewJob[],
): Promise<void> {
  await tx.job.createMany({
    data: jobs.map(({ tasks: _, earliestOn, bestOn, latestOn, ...job }) => ({
      ...job,
      earliestOn: toDate(earliestOn),
      bestOn: toDate(bestOn),
      latestOn: toDate(latestOn),
      createdById,
      createdBy: name,
    })),
  });
  await tx.jobTask.createMany({
    data: jobs.flatMap(({ id: jobId, clientId, tasks }) =>
      tasks.map(({ outlookId, dueOn, latestOn, ...task }, place) => ({
        ...task,
        jobId,
        clientId,
        place: place + 1,
        outlookId: outlookId === null ? null : BigInt(outlookId),
        dueOn: toDate(dueOn),
        latestOn: toDate(latestOn),
      })),
    ),
  });
  await tx.jobChange.createMany({
    data: jobs.map(({ id: jobId, clientId }) => ({ jobId, clientId, byId: createdById, by: name, what: 'state', to: 'open', toClient: true })),
  });
}

/** Tasks of jobs that are still to be done, for the same work at the same position. */
export function openTasksFor(tx: Reader, dues: readonly { skidId: string; positionId: string | null; task: string }[]) {
  if (dues.length === 0) return Promise.resolve([]);
  return tx.$queryRaw<{ no: number; task: string; skidName: string; positionName: string | null }[]>`
    SELECT j.no, t.task, s.name AS "skidName", p.name AS "positionName"
      FROM jsonb_to_recordset(${JSON.stringify(dues.map(({ skidId, positionId, task }) => ({ skidId, positionId, task })))}::jsonb)
           AS d("skidId" uuid, "positionId" uuid, task text)
      JOIN job j ON j.skid_id = d."skidId" AND j.state NOT IN ('finished', 'dropped')
      JOIN job_task t ON t.job_id = j.id AND t.task = d.task AND t.position_id IS NOT DISTINCT FROM d."positionId" AND t.outcome IS NULL
      JOIN skid s ON s.id = j.skid_id LEFT JOIN position p ON p.id = t.position_id ORDER BY j.no LIMIT 1`;
}

export interface HeldJob {
  readonly id: string;
  readonly no: number;
  readonly clientId: string;
  readonly siteId: string;
  readonly skidId: string;
  readonly visitId: string | null;
  readonly afterJobId: string | null;
  readonly title: string;
  readonly kind: JobKind;
  readonly state: JobState;
  readonly version: number;
}

/** The job, kept from others until the end of the transaction. */
export async function holdJob(tx: Reader, id: string): Promise<HeldJob | undefined> {
  const [row] = await tx.$queryRaw<HeldJob[]>`
    SELECT id, no, client_id AS "clientId", site_id AS "siteId", skid_id AS "skidId", visit_id AS "visitId", after_job_id AS "afterJobId", title, kind, state, version
      FROM job WHERE id = ${id}::uuid FOR UPDATE`;
  return row;
}

export async function editJob(tx: Reader, id: string, data: Prisma.JobUncheckedUpdateInput): Promise<void> {
  await tx.job.update({ where: { id }, data: { ...data, version: { increment: 1 } }, select: { id: true } });
}

/** `what` of a change that says that the job stopped or restarted the skid. */
export const STATE_OF_SKID = 'skid';

export async function addChange(tx: Reader, change: Prisma.JobChangeUncheckedCreateInput): Promise<void> {
  await tx.jobChange.create({ data: change, select: { id: true } });
}
