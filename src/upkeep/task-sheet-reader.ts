import { Injectable } from '@nestjs/common';
import type { Reader } from '../app/index.js';
import type { SheetChemical, SheetStep, TaskKind } from '../shared/task-sheet.js';

export interface SheetPart {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  /** UN/CEFACT Recommendation 20 */
  readonly unit: string;
  /** A decimal number */
  readonly quantity: string;
  /** Once for a visit, however many tasks ask for it */
  readonly everyVisit: boolean;
}

/** What doing a task takes, as one version of its sheet says. */
export interface SheetVersion {
  readonly id: string;
  readonly taskSheetId: string;
  readonly no: number;
  readonly task: string;
  readonly kind: TaskKind;
  readonly usualMinutes: number;
  readonly crew: number;
  readonly waterOffMinutes: number;
  readonly skills: string[];
  readonly certificates: string[];
  readonly tools: string[];
  readonly instruments: string[];
  readonly chemicals: SheetChemical[];
  readonly steps: SheetStep[];
  readonly hazards: string[];
  readonly note: string;
  readonly parts: SheetPart[];
}

const VERSIONS = `SELECT v.id, v.task_sheet_id AS "taskSheetId", v.no, s.task, s.kind, v.usual_minutes AS "usualMinutes", v.crew, v.water_off_minutes AS "waterOffMinutes", v.skills,
        v.certificates, v.tools, v.instruments, v.chemicals, v.steps, v.hazards, v.note
   FROM task_sheet_version v JOIN task_sheet s ON s.id = v.task_sheet_id`;

/** Task sheets for the stages that do the work: one query for the versions and one for their parts. */
@Injectable()
export class TaskSheetReader {
  async versions(reader: Reader, versionIds: readonly string[]): Promise<SheetVersion[]> {
    if (versionIds.length === 0) return [];
    const rows = await reader.$queryRawUnsafe<SheetVersion[]>(`${VERSIONS} WHERE v.id = ANY($1::uuid[]) ORDER BY s.task, v.no`, [...new Set(versionIds)]);
    return withParts(reader, rows);
  }

  /** The version of each sheet that new work follows. */
  async latest(reader: Reader, taskSheetIds: readonly string[]): Promise<SheetVersion[]> {
    if (taskSheetIds.length === 0) return [];
    const rows = await reader.$queryRawUnsafe<SheetVersion[]>(
      `${VERSIONS} WHERE v.task_sheet_id = ANY($1::uuid[]) AND v.no = (SELECT max(no) FROM task_sheet_version WHERE task_sheet_id = v.task_sheet_id) ORDER BY s.task`,
      [...new Set(taskSheetIds)],
    );
    return withParts(reader, rows);
  }
}

async function withParts(reader: Reader, rows: readonly SheetVersion[]): Promise<SheetVersion[]> {
  const ids = rows.map(({ id }) => id);
  const parts = await reader.$queryRaw<(SheetPart & { versionId: string })[]>`
    SELECT p.version_id AS "versionId", i.id AS "itemId", i.code, i.name, i.unit, trim_scale(p.quantity)::text AS quantity, p.every_visit AS "everyVisit"
      FROM task_sheet_part p JOIN item i ON i.id = p.item_id WHERE p.version_id = ANY(${ids}::uuid[]) ORDER BY i.code`;
  return rows.map((row) => ({ ...row, parts: parts.filter(({ versionId }) => versionId === row.id).map(({ versionId: _, ...part }) => part) }));
}
