import { containing, type PageQuery, pageBy, type Reader, takeEdited } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';
import type { TaskKind } from '../shared/task-sheet.js';
import type { SheetContent } from './sheet-content.js';

const HEADS = { versions: { orderBy: { no: 'desc' }, omit: { steps: true, chemicals: true } } } as const satisfies Prisma.TaskSheetInclude;
export type SheetWithHeads = Prisma.TaskSheetGetPayload<{ include: typeof HEADS }>;

export function listSheets(reader: Reader, query: PageQuery, { kind, ended }: { kind: TaskKind | undefined; ended: boolean }): Promise<SheetWithHeads[]> {
  const { behind, ...order } = pageBy('task', query);
  const task = containing(query.find);
  const where = { endedOn: ended ? { not: null } : null, ...(kind === undefined ? {} : { kind }), ...(task === undefined ? {} : { task }) };
  return reader.taskSheet.findMany({ where: { AND: [where, behind] }, ...order, include: { versions: { ...HEADS.versions, take: 1 } } });
}

export function findSheet(reader: Reader, id: string): Promise<SheetWithHeads | null> {
  return reader.taskSheet.findUnique({ where: { id }, include: HEADS });
}

export async function createSheet(tx: Reader, task: string, content: SheetContent, by: string): Promise<string> {
  const version = { no: 1, createdBy: by, ...columns(content), parts: { create: [...content.parts] } };
  return (await tx.taskSheet.create({ data: { task, kind: content.kind, versions: { create: version } } })).id;
}

/** Writes the next version. Refuses when somebody else has edited the sheet since the caller read it, or it has ended. */
export async function addVersion(tx: Reader, id: string, version: number, content: SheetContent, by: string): Promise<void> {
  const { count } = await tx.taskSheet.updateMany({ where: { id, version, endedOn: null }, data: { kind: content.kind, version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'task sheet');
  const latest = await tx.taskSheetVersion.aggregate({ where: { taskSheetId: id }, _max: { no: true } });
  await tx.taskSheetVersion.create({
    data: { taskSheetId: id, no: (latest._max.no ?? 0) + 1, createdBy: by, ...columns(content), parts: { create: [...content.parts] } },
  });
}

export async function endSheet(tx: Reader, id: string, version: number, on: string): Promise<void> {
  const { count } = await tx.taskSheet.updateMany({ where: { id, version, endedOn: null }, data: { endedOn: new Date(on), version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'task sheet');
}

/** Rules that skids follow, or that a draft holds, and that point to the sheet. */
export function rulesWithSheet(reader: Reader, id: string) {
  return reader.upkeepRule.findMany({
    where: { taskSheetId: id, endedOn: null },
    select: {
      task: true,
      skidId: true,
      ruleSetVersion: { select: { no: true, publishedAt: true, skids: { take: 1, select: { id: true } }, ruleSet: { select: { name: true } } } },
    },
  });
}

export async function skidsWithSheet(reader: Reader, id: string): Promise<string[]> {
  const rows = await reader.$queryRaw<{ id: string }[]>`
    SELECT DISTINCT s.id FROM skid s JOIN upkeep_rule r ON r.task_sheet_id = ${id}::uuid AND r.ended_on IS NULL
       AND (r.skid_id = s.id OR (r.skid_id IS NULL AND r.rule_set_version_id = s.rule_set_version_id)) WHERE s.ended_on IS NULL`;
  return rows.map((row) => row.id);
}

export async function knownItems(reader: Reader, ids: readonly string[]): Promise<Set<string>> {
  const items = await reader.item.findMany({ where: { id: { in: [...ids] }, endedOn: null }, select: { id: true } });
  return new Set(items.map(({ id }) => id));
}

export function itemsById(reader: Reader, ids: readonly string[]) {
  return reader.item.findMany({ where: { id: { in: [...ids] } }, select: { id: true, code: true, name: true, unit: true } });
}

/** What a finished job says of one of its tasks. */
export interface FinishedTask {
  readonly minutes: number | null;
  /** Tasks that were done on the job: parts are the task's own only where it was the only one */
  readonly tasksDone: number;
  readonly partsUsed: readonly { readonly itemId: string; readonly quantity: string }[];
}

/** Finished work that followed the sheet, the latest first. A job may have several reports; each that counts adds its time and its parts. */
export function finishedTasks(reader: Reader, taskSheetId: string): Promise<FinishedTask[]> {
  return reader.$queryRaw<FinishedTask[]>`
    SELECT CASE WHEN own.minutes IS NOT NULL THEN own.minutes WHEN counted.tasks = 1 THEN report.minutes END AS minutes, counted.tasks AS "tasksDone", report.parts AS "partsUsed"
      FROM job_task t
      JOIN task_sheet_version v ON v.id = t.sheet_version_id AND v.task_sheet_id = ${taskSheetId}::uuid
      JOIN job j ON j.id = t.job_id AND j.state = 'finished'
      JOIN LATERAL (SELECT count(*)::int AS tasks FROM job_task WHERE job_id = t.job_id AND outcome = 'done') counted ON true
      JOIN LATERAL (
        SELECT sum(r.minutes) AS minutes, count(*) AS reports,
               coalesce((SELECT jsonb_agg(p) FROM job_report r2, jsonb_array_elements(CASE jsonb_typeof(r2.content->'partsUsed') WHEN 'array' THEN r2.content->'partsUsed' ELSE '[]' END) p
                          WHERE r2.job_id = t.job_id AND r2.state = 'counts'), '[]') AS parts
          FROM job_report r WHERE r.job_id = t.job_id AND r.state = 'counts'
      ) report ON report.reports > 0
      LEFT JOIN LATERAL (
        SELECT sum((entry->>'minutes')::float8) AS minutes FROM job_report r, jsonb_array_elements(CASE jsonb_typeof(r.content->'tasks') WHEN 'array' THEN r.content->'tasks' ELSE '[]' END) entry
         WHERE r.job_id = t.job_id AND r.state = 'counts' AND entry->>'taskId' = t.id::text AND jsonb_typeof(entry->'minutes') = 'number'
      ) own ON true
     WHERE t.outcome = 'done' ORDER BY j.finished_at DESC NULLS LAST LIMIT 200`;
}

function columns({ usualMinutes, crew, waterOffMinutes, skills, certificates, tools, instruments, chemicals, steps, hazards, note }: SheetContent) {
  return {
    usualMinutes,
    crew,
    waterOffMinutes,
    skills: [...skills],
    certificates: [...certificates],
    tools: [...tools],
    instruments: [...instruments],
    chemicals: chemicals.map((chemical) => ({ ...chemical })),
    steps: steps.map((step) => ({ ...step })),
    hazards: [...hazards],
    note,
  };
}
