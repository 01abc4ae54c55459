import type { Reader } from '../app/index.js';
import type { SheetStep } from '../shared/task-sheet.js';
import type { MeterBefore } from './core/judge-report.js';
import type { JobReportDto } from './reports.dto.js';

export interface TaskOfJob {
  readonly id: string;
  readonly task: string;
  readonly kind: string;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly expectedMinutes: number | null;
  readonly outcome: string | null;
  readonly steps: readonly SheetStep[];
}

/** What a report is judged by and told with. */
export interface ReportFacts {
  readonly tasks: readonly TaskOfJob[];
  readonly meters: readonly MeterBefore[];
  readonly positions: ReadonlyMap<string, string>;
  readonly items: ReadonlyMap<string, { readonly code: string; readonly name: string }>;
  readonly places: ReadonlySet<string>;
}

/** In five queries, whatever the size of the report. */
export async function readReportFacts(tx: Reader, job: { id: string; skidId: string }, report: JobReportDto): Promise<ReportFacts> {
  const tasks = await tx.$queryRaw<TaskOfJob[]>`
    SELECT t.id, t.task, t.kind, t.position_id AS "positionId", p.name AS "positionName", t.expected_minutes AS "expectedMinutes", t.outcome, coalesce(v.steps, '[]') AS steps
      FROM job_task t LEFT JOIN position p ON p.id = t.position_id LEFT JOIN task_sheet_version v ON v.id = t.sheet_version_id
     WHERE t.job_id = ${job.id}::uuid ORDER BY t.place`;
  const positions = await tx.position.findMany({ where: { skidId: job.skidId }, select: { id: true, name: true } });
  const meters = await tx.$queryRaw<MeterBefore[]>`
    SELECT m.id, m.kind, p.name AS "positionName", m.modulus, r.value, r.at
      FROM meter m JOIN position p ON p.id = m.position_id
      LEFT JOIN LATERAL (SELECT value, at FROM meter_reading WHERE meter_id = m.id AND at < ${new Date(report.finishedAt)} ORDER BY at DESC LIMIT 1) r ON true
     WHERE p.skid_id = ${job.skidId}::uuid`;
  const itemIds = [...report.partsUsed, ...report.partsFitted].map(({ itemId }) => itemId);
  const removed = await tx.$queryRaw<{ itemId: string }[]>`
    SELECT pt.item_id AS "itemId" FROM fitting f JOIN part pt ON pt.id = f.part_id
     WHERE f.position_id = ANY(${report.partsRemoved.map(({ positionId }) => positionId)}::uuid[]) AND f.removed_at IS NULL`;
  const items = await tx.item.findMany({
    where: { id: { in: [...new Set([...itemIds, ...removed.map(({ itemId }) => itemId)])] } },
    select: { id: true, code: true, name: true },
  });
  const placeIds = [
    ...report.partsUsed.flatMap(({ placeId }) => placeId ?? []),
    ...report.partsFitted.flatMap(({ fromPlaceId }) => fromPlaceId ?? []),
    ...report.partsRemoved.flatMap(({ toPlaceId }) => toPlaceId ?? []),
  ];
  const places = placeIds.length === 0 ? [] : await tx.place.findMany({ where: { id: { in: [...new Set(placeIds)] }, endedOn: null }, select: { id: true } });
  return {
    tasks,
    meters,
    positions: new Map(positions.map(({ id, name }) => [id, name])),
    items: new Map(items.map(({ id, code, name }) => [id, { code, name }])),
    places: new Set(places.map(({ id }) => id)),
  };
}

/** What is fitted where parts are removed to go back to stock. */
export function fittedNow(tx: Reader, positionIds: readonly string[]) {
  return tx.$queryRaw<{ positionId: string; partId: string; itemId: string; setCount: number; lot: string | null; serialNumber: string | null }[]>`
    SELECT f.position_id AS "positionId", f.part_id AS "partId", pt.item_id AS "itemId", pt.set_count AS "setCount", pt.lot, pt.serial_number AS "serialNumber"
      FROM fitting f JOIN part pt ON pt.id = f.part_id WHERE f.position_id = ANY(${[...positionIds]}::uuid[]) AND f.removed_at IS NULL`;
}
