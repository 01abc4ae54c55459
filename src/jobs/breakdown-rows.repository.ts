import { newId, type Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { addChange, createJobs, editJob, type HeldJob } from './job-writes.repository.js';

/** Who did something: a person, or the readings. */
export interface Doer {
  readonly id: string | null;
  readonly name: string;
}

export interface SkidOfWork {
  readonly id: string;
  readonly clientId: string;
  readonly siteId: string;
}

interface JobToOpen {
  readonly skid: SkidOfWork;
  readonly kind: 'breakdown' | 'request';
  readonly title: string;
  readonly request: string;
  readonly positionId: string | null;
  readonly by: Doer;
}

type BreakdownColumns = Omit<Prisma.BreakdownUncheckedCreateInput, 'jobId' | 'clientId' | 'skidId'>;

const NO_DUE = { sheetVersionId: null, ruleId: null, outlookId: null, dueOn: null, latestOn: null, expectedMinutes: null };

/** A job with its one task, and the breakdown that it is made for. */
export async function openJob(tx: Reader, { skid, kind, title, request, positionId, by }: JobToOpen, breakdown: BreakdownColumns | null) {
  const { id: skidId, clientId, siteId } = skid;
  const id = newId();
  const task = { task: title, kind: kind === 'breakdown' ? 'repair' : 'service', positionId, reason: '', ...NO_DUE };
  const days = { followsJobId: null, earliestOn: null, bestOn: null, latestOn: null };
  await createJobs(tx, by, [{ id, clientId, siteId, skidId, kind, title, request, ...days, tasks: [task] }]);
  if (breakdown !== null) await tx.breakdown.create({ data: { ...breakdown, jobId: id, clientId, skidId } });
  return tx.job.findUniqueOrThrow({ where: { id }, select: { id: true, no: true, version: true } });
}

/** The job is finished without anybody having been there, so its tasks were not done. */
export async function finishWithoutVisit(tx: Reader, job: HeldJob, { by, at, note }: { by: Doer; at: Date; note: string }): Promise<void> {
  const { id: jobId, clientId, state: from } = job;
  await tx.jobTask.updateMany({ where: { jobId, outcome: null }, data: { outcome: 'not done' } });
  await editJob(tx, jobId, { state: 'finished', finishedAt: at, finishedBy: by.name });
  await addChange(tx, { jobId, clientId, at, byId: by.id, by: by.name, what: 'state', from, to: 'finished', note, toClient: true });
}

export async function editBreakdown(tx: Reader, jobId: string, columns: Prisma.BreakdownUncheckedUpdateInput): Promise<void> {
  await tx.breakdown.update({ where: { jobId }, data: columns, select: { jobId: true } });
}

export const findSkidOfWork = (reader: Reader, id: string) =>
  reader.skid.findUnique({ where: { id }, select: { id: true, name: true, clientId: true, siteId: true, endedOn: true } });

export const isPositionOf = async (tx: Reader, skidId: string, id: string): Promise<boolean> => (await tx.position.count({ where: { id, skidId } })) === 1;
