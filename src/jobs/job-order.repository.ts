import type { Reader } from '../app/index.js';
import type { JobState } from '../shared/work.js';

export interface JobInOrder {
  readonly id: string;
  readonly no: number;
  readonly title: string;
  readonly state: JobState;
}

/**
 * Keeps the order of jobs as it is until the end of the transaction, then both jobs, the smaller id first. The two alone would not do:
 * of four jobs in a row two edits that share none can make a circle together.
 */
export async function holdOrder(tx: Reader, ids: readonly string[]): Promise<void> {
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended('job order', 0))::text`;
  await tx.$queryRaw`SELECT id FROM job WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY id FOR UPDATE`;
}

/** The job and those before which it may not be begun, the nearest first, no further than to `until`; none where this client has no such job. */
export const jobsUpTo = (tx: Reader, id: string, clientId: string, until: string | null): Promise<JobInOrder[]> =>
  tx.$queryRaw<JobInOrder[]>`
    WITH RECURSIVE way AS (
      SELECT id, no, title, state, after_job_id, 1 AS step FROM job WHERE id = ${id}::uuid AND client_id = ${clientId}::uuid
       UNION ALL
      SELECT j.id, j.no, j.title, j.state, j.after_job_id, way.step + 1 FROM way JOIN job j ON j.id = way.after_job_id WHERE way.id IS DISTINCT FROM ${until}::uuid
    ) CYCLE id SET again USING path
    SELECT id, no, title, state FROM way WHERE NOT again ORDER BY step`;

export async function noOfJob(tx: Reader, id: string): Promise<number | undefined> {
  return (await tx.job.findUnique({ where: { id }, select: { no: true } }))?.no;
}

/** The job that comes before this one, and those to be done that wait for it. */
export const jobsBesideIt = (reader: Reader, id: string): Promise<(JobInOrder & { readonly isBefore: boolean })[]> =>
  reader.$queryRaw<(JobInOrder & { isBefore: boolean })[]>`
    SELECT o.id, o.no, o.title, o.state, o.id = j.after_job_id IS TRUE AS "isBefore" FROM job j
      JOIN job o ON o.id = j.after_job_id OR o.after_job_id = j.id AND o.state NOT IN ('finished', 'dropped') WHERE j.id = ${id}::uuid ORDER BY o.no`;
