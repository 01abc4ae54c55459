import type { Caller, Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { dateOf } from '../registry/index.js';
import type { JobState } from '../shared/work.js';
import { findVisit, type VisitWithAll } from './visits.repository.js';

const STAFF = { clientId: null };

/** The visit, kept from other changes until the end of the transaction. */
export async function lockVisit(tx: Reader, id: string): Promise<VisitWithAll | null> {
  await tx.$queryRaw`SELECT 1 FROM visit WHERE id = ${id}::uuid FOR UPDATE`;
  return findVisit(tx, STAFF, id);
}

export interface NewVisit {
  readonly clientId: string;
  readonly siteId: string;
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly minutesGiven: boolean;
  readonly note: string;
  readonly noteToClient: string;
  readonly createdBy: string;
}

export const createVisit = (tx: Reader, { onDay, ...visit }: NewVisit): Promise<{ id: string; no: number }> =>
  tx.visit.create({ data: { ...visit, onDay: dateOf(onDay) }, select: { id: true, no: true } });

export async function editVisit(tx: Reader, id: string, { onDay, ...columns }: Prisma.VisitUncheckedUpdateInput & { onDay?: string }): Promise<void> {
  const data = { ...columns, ...(onDay === undefined ? {} : { onDay: dateOf(onDay) }), version: { increment: 1 } };
  await tx.visit.update({ where: { id }, data, select: { id: true } });
  // What was proposed to the client is asked only as long as it is what is planned.
  await tx.$executeRaw`
    UPDATE visit_answer a SET closed_at = now() FROM visit v
     WHERE v.id = ${id}::uuid AND a.visit_id = v.id AND a.closed_at IS NULL AND (v.state <> 'planned' OR v.on_day <> a.on_day OR v.start_time <> a.start_time)`;
}

export async function setPeople(tx: Reader, visit: { id: string; clientId: string }, people: readonly { id: string; name: string }[]): Promise<void> {
  await tx.visitPerson.deleteMany({ where: { visitId: visit.id } });
  await tx.visitPerson.createMany({ data: people.map(({ id, name }) => ({ visitId: visit.id, clientId: visit.clientId, personId: id, name })) });
}

export interface VisitChange {
  readonly what: 'made' | 'state' | 'time' | 'minutes' | 'people' | 'jobs' | 'notes' | 'answer';
  readonly from?: string;
  readonly to?: string;
  readonly note?: string;
  readonly toClient?: boolean;
}

export async function addChanges(
  tx: Reader,
  visit: { id: string; clientId: string },
  by: { name: string; at: Date },
  changes: readonly VisitChange[],
): Promise<void> {
  const data = changes.map((change) => ({ ...change, visitId: visit.id, clientId: visit.clientId, by: by.name, at: by.at }));
  await tx.visitChange.createMany({ data });
}

export interface JobToPlan {
  readonly id: string;
  readonly no: number;
  readonly title: string;
  readonly clientId: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly state: JobState;
  readonly visitId: string | null;
  /** Null: in none, or in one that is over */
  readonly openVisitNo: number | null;
}

/**
 * Keeps jobs, and those that are in a visit, from other changes until the end of the transaction. Before the visit is locked: whoever moves a job on
 * locks it, and then its visit.
 */
export async function holdJobs(tx: Reader, ids: readonly string[], visitId: string | null = null): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM job WHERE id = ANY(${[...ids]}::uuid[]) OR visit_id = ${visitId}::uuid ORDER BY id FOR UPDATE`;
}

/** Jobs as they stand, held. */
export async function jobsToPlan(tx: Reader, ids: readonly string[]): Promise<JobToPlan[]> {
  await holdJobs(tx, ids);
  return tx.$queryRaw<JobToPlan[]>`
    SELECT j.id, j.no, j.title, j.client_id AS "clientId", j.site_id AS "siteId", s.name AS "siteName", j.state, j.visit_id AS "visitId", v.no AS "openVisitNo"
      FROM job j JOIN site s ON s.id = j.site_id LEFT JOIN visit v ON v.id = j.visit_id AND v.state NOT IN ('finished', 'called off')
     WHERE j.id = ANY(${[...ids]}::uuid[]) ORDER BY j.no`;
}

/** Puts jobs into a visit, or back to those that wait for one, with the reason on their record. */
export async function putJobs(
  tx: Reader,
  jobs: readonly { id: string; clientId: string }[],
  visitId: string | null,
  by: { caller: Caller; at: Date },
  change: { from: string; to: string; note: string },
): Promise<void> {
  const ids = jobs.map(({ id }) => id);
  await tx.job.updateMany({ where: { id: { in: ids } }, data: { visitId, version: { increment: 1 } } });
  const record = { ...change, what: 'visit', byId: by.caller.id, by: by.caller.name, at: by.at };
  await tx.jobChange.createMany({ data: jobs.map(({ id, clientId }) => ({ ...record, jobId: id, clientId })) });
}

/** The states of all jobs of a visit. */
export async function jobStatesOf(tx: Reader, visitId: string): Promise<JobState[]> {
  const rows = await tx.job.findMany({ where: { visitId }, select: { state: true } });
  return rows.map(({ state }) => state as JobState);
}
