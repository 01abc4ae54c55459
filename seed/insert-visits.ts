import { createHash } from 'node:crypto';
import { newId } from '../src/app/index.js';
import type { Prisma, PrismaClient } from '../src/generated/prisma/client.js';
import { summaryOf } from '../src/jobs/core/report-summary.js';
import type { SheetStep } from '../src/shared/task-sheet.js';
import { idOf, type ScenarioIds } from './insert-registry.js';
import type { Scenario } from './types.js';
import type { ScenarioJob, ScenarioVisit } from './work-types.js';

const ROWS_AT_ONCE = 1_000;
const day = (text: string): Date => new Date(`${text}T00:00:00Z`);

interface Sheet {
  readonly id: string;
  readonly kind: string;
  readonly usualMinutes: number;
  readonly steps: readonly SheetStep[];
}

interface Rows {
  readonly visits: Prisma.VisitCreateManyInput[];
  readonly people: Prisma.VisitPersonCreateManyInput[];
  readonly visitChanges: Prisma.VisitChangeCreateManyInput[];
  readonly jobs: Prisma.JobCreateManyInput[];
  readonly tasks: Prisma.JobTaskCreateManyInput[];
  readonly reports: Prisma.JobReportCreateManyInput[];
  readonly jobChanges: Prisma.JobChangeCreateManyInput[];
}

/** Visits that are over, with their jobs, tasks and sheets. Answers the id of each by its site and day. */
export async function insertVisits(prisma: PrismaClient, scenario: Scenario, ids: ScenarioIds): Promise<ReadonlyMap<string, string>> {
  const sheets = await sheetsByTask(prisma);
  const positionNames = new Map(scenario.positions.map(({ key, name }) => [key, name]));
  const rows: Rows = { visits: [], people: [], visitChanges: [], jobs: [], tasks: [], reports: [], jobChanges: [] };
  const visitIds = new Map<string, string>();
  const manager = scenario.people.find(({ role }) => role === 'manager')?.name ?? '';
  for (const visit of scenario.work.visits) {
    const site = idOf(ids.sites, visit.siteKey);
    const visitId = addVisit(rows, visit, site, ids, manager);
    visitIds.set(visitKey(visit.siteKey, visit.onDay), visitId);
    for (const job of visit.jobs) addJob(rows, job, { id: visitId, signedBy: visit.signedBy, manager }, { sheets, positionNames, ids });
  }
  await inParts(rows.visits, (data) => prisma.visit.createMany({ data }));
  await inParts(rows.people, (data) => prisma.visitPerson.createMany({ data }));
  await inParts(rows.visitChanges, (data) => prisma.visitChange.createMany({ data }));
  await inParts(rows.jobs, (data) => prisma.job.createMany({ data }));
  await inParts(rows.tasks, (data) => prisma.jobTask.createMany({ data }));
  await inParts(rows.reports, (data) => prisma.jobReport.createMany({ data }));
  await inParts(rows.jobChanges, (data) => prisma.jobChange.createMany({ data }));
  return visitIds;
}

export const visitKey = (siteKey: string, onDay: string): string => `${siteKey} ${onDay}`;

async function sheetsByTask(prisma: PrismaClient): Promise<ReadonlyMap<string, Sheet>> {
  const found = await prisma.taskSheetVersion.findMany({ include: { taskSheet: { select: { task: true, kind: true } } }, orderBy: { no: 'asc' } });
  return new Map(
    found.map(({ id, usualMinutes, steps, taskSheet: { task, kind } }) => [task, { id, kind, usualMinutes, steps: steps as unknown as SheetStep[] }]),
  );
}

function addVisit(rows: Rows, visit: ScenarioVisit, { id: siteId, clientId }: { id: string; clientId: string }, ids: ScenarioIds, manager: string): string {
  const id = newId();
  const { onDay, startTime, minutes, people, finishedAt } = visit;
  const madeAt = new Date(day(onDay).getTime() - 9 * 86_400_000 + 36_000_000);
  const promised = { promisedAt: madeAt, promisedBy: manager };
  rows.visits.push({
    id,
    clientId,
    siteId,
    onDay: day(onDay),
    startTime,
    minutes,
    state: 'finished',
    ...promised,
    createdAt: madeAt,
    createdBy: manager,
    finishedAt,
  });
  rows.people.push(...people.map((key) => ({ visitId: id, personId: idOf(ids.people, key), clientId, name: idOf(ids.names, key) })));
  const names = people.map((key) => idOf(ids.names, key)).join(', ');
  rows.visitChanges.push(
    { visitId: id, clientId, at: madeAt, by: manager, what: 'made', to: `${onDay} ${startTime}, ${names}` },
    { visitId: id, clientId, at: madeAt, by: manager, what: 'state', from: 'planned', to: 'promised', note: `${onDay} ${startTime}`, toClient: true },
    { visitId: id, clientId, at: finishedAt, by: names, what: 'state', from: 'under way', to: 'finished', toClient: true },
  );
  return id;
}

interface Known {
  readonly sheets: ReadonlyMap<string, Sheet>;
  readonly positionNames: ReadonlyMap<string, string>;
  readonly ids: ScenarioIds;
}

function addJob(rows: Rows, job: ScenarioJob, visit: { id: string; signedBy: string; manager: string }, { sheets, positionNames, ids }: Known): void {
  const jobId = newId();
  const { id: skidId, clientId, siteId } = idOf(ids.skids, job.skidKey);
  const [byId, by] = [idOf(ids.people, job.by), idOf(ids.names, job.by)];
  const { startedAt, finishedAt, minutes } = job;
  const tasks = job.tasks.map((task) => ({ ...task, id: newId(), sheet: sheets.get(task.task) }));
  const [first] = tasks;
  const title = tasks.length === 1 ? (first?.task ?? '') : `${first?.task} and ${tasks.length - 1} more`;
  const days = tasks.map(({ dueOn }) => dueOn).sort();
  const latest = tasks.map(({ latestOn }) => latestOn).sort();
  const createdAt = new Date(finishedAt.getTime() - 9 * 86_400_000);
  rows.jobs.push({
    id: jobId,
    clientId,
    siteId,
    skidId,
    kind: 'service',
    title,
    state: 'finished',
    visitId: visit.id,
    bestOn: day(days[0] ?? ''),
    latestOn: day(latest[0] ?? ''),
    createdAt,
    createdBy: visit.manager,
    finishedAt,
    finishedBy: by,
  });
  rows.tasks.push(
    ...tasks.map(({ id, task, sheet, positionKey, dueOn, latestOn, doneAt }, index) => ({
      id,
      jobId,
      clientId,
      place: index + 1,
      task,
      kind: sheet?.kind ?? 'repair',
      sheetVersionId: sheet?.id ?? null,
      positionId: positionKey === null ? null : idOf(ids.positions, positionKey),
      dueOn: day(dueOn),
      latestOn: day(latestOn),
      expectedMinutes: sheet?.usualMinutes ?? null,
      outcome: 'done',
      doneAt,
    })),
  );
  const named = tasks.map(({ id, task, positionKey, sheet }) => ({
    id,
    task,
    positionName: positionKey === null ? null : (positionNames.get(positionKey) ?? null),
    steps: sheet?.steps ?? [],
  }));
  const content = {
    tasks: tasks.map(({ id: taskId, note, sheet }) => ({
      taskId,
      outcome: 'done' as const,
      note,
      steps: (sheet?.steps ?? []).map(({ no, kind }) => ({
        no,
        outcome: 'done' as const,
        ...(kind === 'check' && { yes: true }),
      })),
    })),
    partsUsed: [],
    partsFitted: [],
    partsRemoved: [],
    meters: [],
    readings: [],
    cleans: [],
    integrityTests: [],
    fibreRepairs: [],
    calibrations: [],
    note: '',
  };
  const summary = summaryOf(content, { tasks: named, items: new Map(), positions: new Map(), meters: new Map(), signals: (code) => code });
  const reportId = newId();
  rows.reports.push({
    id: reportId,
    jobId,
    clientId,
    byId,
    by,
    startedAt,
    finishedAt,
    receivedAt: finishedAt,
    state: 'counts',
    minutes,
    content: {},
    contentHash: createHash('sha256').update(reportId).digest('hex'),
    summary: summary as unknown as Prisma.InputJsonObject,
    signedBy: visit.signedBy,
  });
  rows.jobChanges.push({ jobId, clientId, at: finishedAt, byId, by, what: 'state', from: 'open', to: 'finished', toClient: true });
}

async function inParts<Row>(rows: readonly Row[], insert: (rows: Row[]) => Promise<unknown>): Promise<void> {
  for (let from = 0; from < rows.length; from += ROWS_AT_ONCE) await insert(rows.slice(from, from + ROWS_AT_ONCE));
}
