import type { Hazard, SheetChemical, SheetStep, TaskKind } from '../shared/task-sheet.js';

/** What a version of a task sheet is written with. */
export interface SheetContent {
  readonly kind: TaskKind;
  readonly usualMinutes: number;
  readonly crew: number;
  readonly waterOffMinutes: number;
  readonly skills: readonly string[];
  readonly certificates: readonly string[];
  readonly tools: readonly string[];
  readonly instruments: readonly string[];
  readonly chemicals: readonly SheetChemical[];
  readonly steps: readonly SheetStep[];
  readonly hazards: readonly Hazard[];
  readonly note: string;
  readonly parts: readonly { readonly itemId: string; readonly quantity: string; readonly everyVisit: boolean }[];
}
