import { Injectable } from '@nestjs/common';
import { Database, NotFound, viewOf } from '../app/index.js';
import { type ActualWork, actualWork, type SheetFindings } from './core/actual-work.js';
import { TaskSheetReader } from './task-sheet-reader.js';
import { PartFindingView, SheetSuggestionsView } from './task-sheets.dto.js';
import { type FinishedTask, finishedTasks, itemsById } from './task-sheets.repository.js';

/** Compares a task sheet with the work that followed it. It only says what it found. */
@Injectable()
export class SheetSuggestions {
  constructor(
    private readonly database: Database,
    private readonly sheets: TaskSheetReader,
  ) {}

  async read(taskSheetId: string): Promise<SheetSuggestionsView> {
    const { prisma } = this.database;
    const [sheet] = await this.sheets.latest(prisma, [taskSheetId]);
    if (sheet === undefined) throw new NotFound('task sheet', taskSheetId);
    const work = (await finishedTasks(prisma, taskSheetId)).map(toActualWork);
    const asked = sheet.parts.map(({ itemId, quantity }) => ({ itemId, quantity: Number(quantity) }));
    const { minutes, parts } = actualWork(work, asked);
    const findings = parts.kind === 'parts' ? parts.findings : [];
    const items = await itemsById(
      prisma,
      findings.map(({ itemId }) => itemId),
    );
    return viewOf(SheetSuggestionsView, {
      taskSheetId,
      sheetMinutes: sheet.usualMinutes,
      jobs: minutes.kind === 'minutes' ? minutes.jobs : minutes.have,
      usualMinutes: minutes.kind === 'minutes' ? minutes.median : null,
      leastMinutes: minutes.kind === 'minutes' ? minutes.low : null,
      mostMinutes: minutes.kind === 'minutes' ? minutes.high : null,
      jobsWithParts: parts.kind === 'parts' ? parts.jobs : parts.have,
      parts: findings.flatMap((finding) => {
        const item = items.find(({ id }) => id === finding.itemId);
        return item === undefined ? [] : [viewOf(PartFindingView, { ...finding, code: item.code, name: item.name, unit: item.unit })];
      }),
      summary: inWords(minutes, sheet.usualMinutes),
    });
  }
}

function toActualWork({ minutes, tasksDone, partsUsed }: FinishedTask): ActualWork {
  if (tasksDone !== 1) return { minutes, parts: null };
  const parts: Record<string, number> = {};
  for (const { itemId, quantity } of partsUsed) parts[itemId] = (parts[itemId] ?? 0) + Number(quantity);
  return { minutes, parts };
}

function inWords(found: SheetFindings['minutes'], sheetMinutes: number): string {
  if (found.kind === 'too-little-data')
    return `Too little to say: ${found.have} finished ${found.have === 1 ? 'job says' : 'jobs say'} how long it took, ${found.need} are needed.`;
  const { median, low, high, jobs } = found;
  return `The last ${jobs} jobs took ${Math.round(median)} minutes as a rule (${Math.round(low)} to ${Math.round(high)}); the sheet says ${sheetMinutes}.`;
}
