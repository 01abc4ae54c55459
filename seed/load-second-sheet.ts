import type { INestApplicationContext } from '@nestjs/common';
import { type Caller, Database } from '../src/app/index.js';
import { JobReportDto } from '../src/jobs/reports.dto.js';
import { TakeReport } from '../src/jobs/take-report.js';
import { TECHNICIANS } from './data/people.js';
import type { Scenario } from './types.js';

/** A sheet of the last finished job from the other technician, who had no signal: it is kept as a second one, for a manager to settle. */
export async function loadSecondSheet(app: INestApplicationContext, { until }: Scenario, callers: ReadonlyMap<string, Caller>, id: string): Promise<void> {
  const { prisma } = app.get(Database);
  const job = await prisma.job.findFirst({
    where: { kind: 'service', state: 'finished', finishedAt: { lt: until } },
    orderBy: [{ finishedAt: 'desc' }, { no: 'desc' }],
    include: { tasks: { include: { sheetVersion: true } }, reports: true },
  });
  const first = job?.reports[0];
  const other = TECHNICIANS.map((key) => callers.get(key)).find((caller) => caller !== undefined && caller.id !== first?.byId);
  if (job == null || first === undefined || other === undefined) return;
  const report = Object.assign(new JobReportDto(), {
    id,
    offline: true,
    startedAt: first.startedAt.toISOString(),
    finishedAt: first.finishedAt.toISOString(),
    minutes: first.minutes,
    outcome: 'finished' as const,
    tasks: job.tasks.map(({ id: taskId, sheetVersion }) => ({ taskId, outcome: 'done' as const, steps: stepsOf(sheetVersion?.steps) })),
    note: 'Done together; my sheet was sent when there was signal again',
    signedBy: first.signedBy,
  });
  await app.get(TakeReport, { strict: false }).take(other, job.id, report);
}

function stepsOf(steps: unknown) {
  const own = Array.isArray(steps) ? (steps as { no: number; kind: string }[]) : [];
  return own.map(({ no, kind }) => ({ no, outcome: 'done' as const, attachmentIds: [], ...(kind === 'check' && { yes: true }) }));
}
