import { randomUUID } from 'node:crypto';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { SheetStep } from '../../src/shared/task-sheet.js';
import type { Api } from './api.js';
import type { SmallSkid } from './small-fleet.js';

export const step = (no: number, text: string, about: Partial<SheetStep> = {}): SheetStep => ({
  no,
  kind: 'do',
  text,
  safety: false,
  signal: null,
  unit: null,
  low: null,
  high: null,
  ...about,
});

/** A task sheet with one version; its id. */
export async function makeTaskSheet(
  app: NestFastifyApplication,
  task: string,
  about: { kind?: string; steps?: readonly SheetStep[]; minutes?: number } = {},
): Promise<string> {
  const { kind = 'service', steps = [], minutes = 45 } = about;
  const version = { no: 1, createdBy: 'Test', usualMinutes: minutes, steps: [...steps] as object[] };
  const { id } = await app.get(Database).prisma.taskSheet.create({ data: { task, kind, versions: { create: version } } });
  return id;
}

interface JobMade {
  readonly id: string;
  readonly no: number;
  readonly taskList: { id: string; task: string }[];
}

export async function makeJob(manager: Api, skid: SmallSkid, tasks: readonly { task: string; positionId?: string; taskSheetId?: string }[]): Promise<JobMade> {
  return (await manager.post('/api/jobs', { skidId: skid.id, tasks }).expect(201)).body;
}

let minute = 0;

/** Every sheet ends a minute later than the one before: work of the same kind at one place and moment would be the same entry. */
const end = () => new Date(Date.UTC(2026, 10, 20, 9, minute++)).toISOString();

/** A sheet on which every task is done and nothing else happened. */
export function sheetOf(job: JobMade, about: object = {}) {
  return {
    id: randomUUID(),
    startedAt: '2026-11-20T08:00:00Z',
    finishedAt: end(),
    minutes: 60,
    outcome: 'finished',
    tasks: job.taskList.map(({ id }) => ({ taskId: id, outcome: 'done' })),
    signedBy: 'R. Example',
    ...about,
  };
}
