import { Injectable } from '@nestjs/common';
import {
  type Caller,
  Conflict,
  Database,
  InvalidRequest,
  type KeyedRequest,
  KeyedWork,
  NotFound,
  type Reader,
  Recompute,
  runnerOf,
  toPageBy,
  viewOf,
} from '../app/index.js';
import { stepFaults } from './core/step-faults.js';
import type { SheetContent } from './sheet-content.js';
import { type SheetVersion, TaskSheetReader } from './task-sheet-reader.js';
import {
  SheetChemicalView,
  SheetPartView,
  SheetVersionHeadView,
  SheetVersionView,
  StepView,
  type TaskSheetContentDto,
  type TaskSheetDto,
  TaskSheetHeadView,
  TaskSheetsPageView,
  type TaskSheetsQuery,
  TaskSheetView,
} from './task-sheets.dto.js';
import {
  addVersion,
  createSheet,
  endSheet,
  findSheet,
  knownItems,
  listSheets,
  rulesWithSheet,
  type SheetWithHeads,
  skidsWithSheet,
} from './task-sheets.repository.js';

/** What doing each task takes. Versions are final: an edit writes the next one, which new work follows. */
@Injectable()
export class TaskSheets {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly recompute: Recompute,
    private readonly reader: TaskSheetReader,
  ) {}

  async list({ kind, ended, ...query }: TaskSheetsQuery): Promise<TaskSheetsPageView> {
    const rows = await listSheets(this.database.prisma, query, { kind, ended: ended === 'true' });
    return viewOf(TaskSheetsPageView, toPageBy('task', rows, query.limit, toHeadView));
  }

  read(id: string): Promise<TaskSheetView> {
    return this.view(this.database.prisma, id);
  }

  async readVersion(id: string, no: number): Promise<SheetVersionView> {
    const head = (await findSheet(this.database.prisma, id))?.versions.find((version) => version.no === no);
    const [version] = head === undefined ? [] : await this.reader.versions(this.database.prisma, [head.id]);
    if (version === undefined) throw new NotFound('version of a task sheet', `${id}, ${no}`);
    return toVersionView(version);
  }

  create(caller: Caller, key: KeyedRequest, { task, ...content }: TaskSheetDto): Promise<TaskSheetView> {
    return this.work.run(key, async (tx) => {
      await checkContent(tx, content);
      return this.view(tx, await createSheet(tx, task, toContent(content), caller.name));
    });
  }

  /** Dues show the time and the kind of the latest version, so the skids whose rules ask for the task are judged anew. */
  edit(caller: Caller, id: string, version: number, content: TaskSheetContentDto): Promise<TaskSheetView> {
    return this.database.write(async (tx) => {
      await this.existing(tx, id);
      await checkContent(tx, content);
      await addVersion(tx, id, version, toContent(content), caller.name);
      for (const skidId of await skidsWithSheet(tx, id)) await this.recompute.later(skidId, runnerOf(tx));
      return this.view(tx, id);
    });
  }

  end(id: string, version: number, on: string): Promise<void> {
    return this.database.write(async (tx) => {
      const { task } = await this.existing(tx, id);
      const needed = (await rulesWithSheet(tx, id)).find(
        ({ skidId, ruleSetVersion }) => skidId !== null || ruleSetVersion?.publishedAt === null || (ruleSetVersion?.skids.length ?? 0) > 0,
      );
      if (needed !== undefined) {
        const { ruleSetVersion } = needed;
        const where = ruleSetVersion === null ? 'a rule of a skid' : `a rule of "${ruleSetVersion.ruleSet.name}", version ${ruleSetVersion.no}`;
        throw new Conflict(`"${task}" is asked for by ${where}. Let the rule point to another sheet first`);
      }
      await endSheet(tx, id, version, on);
    });
  }

  private async existing(reader: Reader, id: string): Promise<SheetWithHeads> {
    const sheet = await findSheet(reader, id);
    if (sheet === null) throw new NotFound('task sheet', id);
    return sheet;
  }

  private async view(reader: Reader, id: string): Promise<TaskSheetView> {
    const { task, kind, endedOn, version, versions } = await this.existing(reader, id);
    const [latest] = await this.reader.latest(reader, [id]);
    if (latest === undefined) throw new NotFound('task sheet', id);
    return viewOf(TaskSheetView, {
      id,
      task,
      kind,
      endedOn: endedOn?.toISOString().slice(0, 10) ?? null,
      version,
      latest: toVersionView(latest),
      versions: versions.map((head) => viewOf(SheetVersionHeadView, { id: head.id, no: head.no, createdAt: head.createdAt, createdBy: head.createdBy })),
    });
  }
}

async function checkContent(tx: Reader, { steps, parts }: TaskSheetContentDto): Promise<void> {
  const known = await knownItems(
    tx,
    parts.map(({ itemId }) => itemId),
  );
  const problems = [
    ...stepFaults(steps).map(({ at, field, message }) => ({ pointer: `#/steps/${at}/${field}`, message })),
    ...parts.flatMap(({ itemId }, at) => (known.has(itemId) ? [] : [{ pointer: `#/parts/${at}/itemId`, message: 'there is no such item, or it has ended' }])),
  ];
  if (problems.length > 0) throw new InvalidRequest('The request has fields that need a change', problems);
}

function toContent({ steps, chemicals, parts, ...content }: TaskSheetContentDto): SheetContent {
  return {
    ...content,
    chemicals: chemicals.map(({ chemical, litres, strength }) => ({ chemical, litres, strength })),
    parts: parts.map(({ itemId, quantity, everyVisit }) => ({ itemId, quantity, everyVisit })),
    steps: steps.map(({ kind, text, safety, signal = null, unit = null, low = null, high = null }, at) => ({
      no: at + 1,
      kind,
      text,
      safety,
      signal,
      unit,
      low,
      high,
    })),
  };
}

function toHeadView({ id, task, kind, endedOn, versions }: SheetWithHeads): TaskSheetHeadView {
  const { no = 0, usualMinutes = 0, crew = 1, waterOffMinutes = 0 } = versions[0] ?? {};
  return viewOf(TaskSheetHeadView, { id, task, kind, endedOn: endedOn?.toISOString().slice(0, 10) ?? null, latestNo: no, usualMinutes, crew, waterOffMinutes });
}

function toVersionView({ taskSheetId: _, task: __, kind: ___, chemicals, steps, parts, ...version }: SheetVersion): SheetVersionView {
  return viewOf(SheetVersionView, {
    ...version,
    chemicals: chemicals.map((chemical) => viewOf(SheetChemicalView, chemical)),
    steps: steps.map((step) => viewOf(StepView, step)),
    parts: parts.map((part) => viewOf(SheetPartView, part)),
  });
}
