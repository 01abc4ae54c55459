import { createHash } from 'node:crypto';
import { newId, type Reader } from '../app/index.js';
import type { Doer, SkidOfWork } from './breakdown-rows.repository.js';
import type { ReadOldWork } from './core/breakdown/old-work.js';

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
  tx.job.findMany({ where: { skidId, state: 'finished', title: { in: [...titles] } }, select: { title: true, finishedAt: true } });

/** Finished jobs with their task, what is known of their failure and the time they took: a set of each table at once. */
export async function storeOldJobs(
  tx: Reader,
  skid: SkidOfWork,
  work: readonly ReadOldWork[],
  { by, at, loadNo }: { by: Doer & { id: string }; at: Date; loadNo: number },
): Promise<void> {
  const { id: skidId, clientId, siteId } = skid;
  const rows = work.map((row) => ({ ...row, id: newId() }));
  await tx.job.createMany({
    data: rows.map(({ id, kind, title, note, at: finishedAt, by: finishedBy }) => {
      const made = { createdAt: finishedAt, createdById: by.id, createdBy: by.name };
      return { id, clientId, siteId, skidId, kind, title, request: note, state: 'finished', finishedAt, finishedBy, ...made };
    }),
  });
  await tx.jobTask.createMany({
    data: rows.map(({ id: jobId, title: task, kind, positionId, at: doneAt }) => {
      return { jobId, clientId, place: 1, task, kind: kind === 'breakdown' ? 'repair' : 'service', positionId, outcome: 'done', doneAt };
    }),
  });
  await tx.jobChange.createMany({
    data: rows.map(({ id: jobId }) => {
      return { jobId, clientId, at, byId: by.id, by: by.name, what: 'state', to: 'finished', note: 'From an older record', toClient: true };
    }),
  });
  await tx.breakdown.createMany({
    data: rows.flatMap(({ id: jobId, failure, at: noticedAt, minutes, positionId }) =>
      failure === null ? [] : [{ ...failure, jobId, clientId, skidId, source: 'staff', noticedAt, repairMinutes: minutes, positionId, endedBy: 'visit' }],
    ),
  });
  await tx.jobReport.createMany({
    data: rows.flatMap(({ id: jobId, at: finishedAt, by: doneBy, title, note, minutes }) => {
      if (minutes === null) return [];
      const content = { fromOlderRecord: true, at: finishedAt.toISOString(), title, minutes };
      const contentHash = createHash('sha256').update(JSON.stringify(content)).digest('hex');
      const startedAt = new Date(finishedAt.getTime() - minutes * 60_000);
      const summary = { tasks: [{ task: title, positionName: null, outcome: 'done', note: '', steps: [] }], lines: [], note };
      const about = { id: newId(), jobId, clientId, byId: by.id, by: doneBy, startedAt, finishedAt, receivedAt: at, loadNo };
      return [{ ...about, state: 'counts', minutes, content, contentHash, summary }];
    }),
  });
}
