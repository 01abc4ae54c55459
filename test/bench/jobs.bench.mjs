/** Finishing a job by its sheet with ten parts from stock: judged, recorded, posted, in one transaction. */
import { randomUUID } from 'node:crypto';
import { medianOfThree, timeCalls } from './callers.mjs';
import { seedJobs } from './seed-jobs.mjs';

export const name = 'jobs';
/** Brings its own jobs. */
export const seed = seedJobs;

export async function run(context, print) {
  const { jobs, items, placeId } = context.seeded;
  let next = 0;
  const startedAt = Date.now() - 7_200_000;
  const finish = () => {
    const job = jobs[next];
    next += 1;
    const body = {
      id: randomUUID(),
      startedAt: new Date(startedAt).toISOString(),
      finishedAt: new Date(startedAt + next * 1000).toISOString(),
      minutes: 60,
      outcome: 'finished',
      tasks: [{ taskId: job.taskId, outcome: 'done' }],
      partsUsed: items.map((itemId) => ({ itemId, quantity: '1', placeId })),
      signedBy: 'R. Example',
    };
    return { path: `/api/jobs/${job.id}/reports`, body };
  };
  for (const callers of [1, 16]) {
    const figures = await medianOfThree(
      () => timeCalls(context, finish, callers),
      ({ medianMs }) => medianMs,
    );
    print({ bench: 'jobs', what: 'finish a job with ten parts', parts: items.length, ...figures });
  }
}
