import { Injectable } from '@nestjs/common';
import { Database, NotFound, type Reader, viewOf } from '../app/index.js';
import { cautionsFor } from '../shared/cautions.js';
import { isSignalCode, SIGNALS } from '../shared/signals.js';
import type { Hazard, SheetStep, TaskKind } from '../shared/task-sheet.js';
import { fromStored, UNITS, type UnitCode } from '../shared/units.js';
import { type SheetVersion, TaskSheetReader } from '../upkeep/index.js';
import {
  CautionView,
  FittedNowView,
  JobChemicalView,
  JobMeterReadingView,
  JobMeterView,
  JobPartView,
  LastValueView,
  SheetPositionView,
  SheetStepView,
  SheetTaskView,
  SheetView,
} from './sheets.dto.js';
import {
  type FittedRow,
  fittedAt,
  type LastValueRow,
  lastValues,
  type SheetJobRow,
  type SheetTaskRow,
  sheetJobs,
  sheetMeters,
  sheetPositions,
  sheetTasks,
} from './sheets.repository.js';

interface SheetFacts {
  readonly tasks: readonly SheetTaskRow[];
  readonly versions: ReadonlyMap<string, SheetVersion>;
  readonly fitted: readonly FittedRow[];
  readonly last: readonly LastValueRow[];
  readonly meters: Awaited<ReturnType<typeof sheetMeters>>;
  readonly positions: Awaited<ReturnType<typeof sheetPositions>>;
}

/** What whoever does a job needs in the hand: steps, last values, parts, what is fitted, cautions. As many queries for many jobs as for one. */
@Injectable()
export class SheetsOfJobs {
  constructor(
    private readonly database: Database,
    private readonly sheets: TaskSheetReader,
  ) {}

  async read(jobId: string): Promise<SheetView> {
    const [sheet] = await this.ofJobs(this.database.prisma, [jobId]);
    if (sheet === undefined) throw new NotFound('job', jobId);
    return sheet;
  }

  async ofJobs(reader: Reader, jobIds: readonly string[]): Promise<SheetView[]> {
    if (jobIds.length === 0) return [];
    const jobs = await sheetJobs(reader, jobIds);
    const skidIds = jobs.map(({ skidId }) => skidId);
    const tasks = await sheetTasks(reader, jobIds);
    const versions = await this.sheets.versions(
      reader,
      tasks.flatMap(({ sheetVersionId }) => sheetVersionId ?? []),
    );
    const positions = await sheetPositions(reader, skidIds);
    const facts: SheetFacts = {
      tasks,
      versions: new Map(versions.map((version) => [version.id, version])),
      positions,
      meters: await sheetMeters(reader, skidIds),
      fitted: await fittedAt(
        reader,
        positions.map(({ id }) => id),
      ),
      last: await lastValues(reader, skidIds),
    };
    return jobs.map((job) => sheetOf(job, facts));
  }
}

function sheetOf(job: SheetJobRow, { tasks, versions, fitted, last, meters, positions }: SheetFacts): SheetView {
  const { id: jobId, skidId, ...about } = job;
  const own = tasks.filter((task) => task.jobId === jobId);
  const sheets = own.flatMap(({ sheetVersionId }) => versions.get(sheetVersionId ?? '') ?? []);
  const cautions = cautionsFor({
    kinds: own.map(({ kind }) => kind as TaskKind),
    chemicals: sheets.flatMap(({ chemicals }) => chemicals.map(({ chemical }) => chemical)),
    hazards: sheets.flatMap(({ hazards }) => hazards as Hazard[]),
  });
  const lastOf = new Map(last.filter((value) => value.skidId === skidId).map((value) => [value.signal, value]));
  return viewOf(SheetView, {
    jobId,
    skidId,
    ...about,
    cautions: cautions.map((caution) => viewOf(CautionView, caution)),
    tasks: own.map((task) =>
      taskOf(
        task,
        versions.get(task.sheetVersionId ?? ''),
        fitted.find(({ positionId }) => positionId === task.positionId),
        lastOf,
      ),
    ),
    meters: meters
      .filter((meter) => meter.skidId === skidId)
      .map(({ id: meterId, positionName, kind, value, at }) => {
        const lastReading = value === null || at === null ? null : viewOf(JobMeterReadingView, { value, at });
        return viewOf(JobMeterView, { meterId, positionName, kind, last: lastReading });
      }),
    positions: positions.filter((position) => position.skidId === skidId).map(({ id, name, kind }) => viewOf(SheetPositionView, { id, name, kind })),
  });
}

function taskOf(task: SheetTaskRow, sheet: SheetVersion | undefined, there: FittedRow | undefined, last: ReadonlyMap<string, LastValueRow>): SheetTaskView {
  const { id: taskId, kind, positionId, positionName, reason, expectedMinutes } = task;
  return viewOf(SheetTaskView, {
    taskId,
    task: task.task,
    kind: kind as TaskKind,
    positionId,
    positionName,
    reason,
    expectedMinutes,
    waterOffMinutes: sheet?.waterOffMinutes ?? 0,
    note: sheet?.note ?? '',
    steps: (sheet?.steps ?? []).map((step) => viewOf(SheetStepView, { ...step, last: lastValueOf(step, last) })),
    parts: (sheet?.parts ?? []).map(({ everyVisit: _, ...part }) => viewOf(JobPartView, part)),
    tools: sheet?.tools ?? [],
    instruments: sheet?.instruments ?? [],
    chemicals: (sheet?.chemicals ?? []).map((chemical) => viewOf(JobChemicalView, chemical)),
    fitted: fittedOf(there),
  });
}

function fittedOf(there: FittedRow | undefined): FittedNowView | null {
  if (there === undefined) return null;
  const { positionId: _, ...part } = there;
  return viewOf(FittedNowView, part);
}

/** In the unit that the step asks for. */
function lastValueOf({ signal, unit }: SheetStep, last: ReadonlyMap<string, LastValueRow>): LastValueView | null {
  if (signal === null || !isSignalCode(signal)) return null;
  const known = last.get(signal);
  if (known === undefined) return null;
  const shown = (unit ?? SIGNALS[signal].unit) as UnitCode;
  if (UNITS[shown]?.dimension !== SIGNALS[signal].dimension) return null;
  return viewOf(LastValueView, { value: fromStored(known.value, shown), unit: shown, at: known.at });
}
