import type { SheetChemical, SheetStep, TaskKind } from '../../shared/task-sheet.js';
import type { JobKind, JobState, VisitState } from '../../shared/work.js';

export interface LastValue {
  readonly value: number;
  readonly unit: string;
  readonly at: string;
}

export interface StepOfSheet extends SheetStep {
  readonly last: LastValue | null;
}

export interface PartOfTask {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantity: string;
}

export interface FittedPart {
  readonly partId: string;
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly serialNumber: string | null;
  readonly lot: string | null;
  readonly fittedAt: string;
}

export interface TaskOfSheet {
  readonly taskId: string;
  readonly task: string;
  readonly kind: TaskKind;
  readonly positionId: string | null;
  readonly positionName: string | null;
  readonly reason: string;
  readonly expectedMinutes: number | null;
  readonly steps: readonly StepOfSheet[];
  readonly parts: readonly PartOfTask[];
  readonly tools: readonly string[];
  readonly instruments: readonly string[];
  readonly chemicals: readonly SheetChemical[];
  readonly fitted: FittedPart | null;
}

/** A job as the phone gets it. */
export interface Sheet {
  readonly jobId: string;
  readonly no: number;
  readonly version: number;
  readonly kind: JobKind;
  readonly title: string;
  readonly request: string;
  readonly state: JobState;
  readonly skidId: string;
  readonly skidName: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly cautions: readonly { readonly about: string; readonly text: string }[];
  readonly tasks: readonly TaskOfSheet[];
  readonly meters: readonly {
    readonly meterId: string;
    readonly positionName: string;
    readonly kind: string;
    readonly last: { readonly value: number; readonly at: string } | null;
  }[];
  readonly positions: readonly { readonly id: string; readonly name: string; readonly kind: string }[];
}

export interface Place {
  readonly id: string;
  readonly name: string;
  readonly kind: string;
  readonly stock: readonly { readonly itemId: string; readonly code: string; readonly name: string; readonly unit: string; readonly onHand: string }[];
}

export interface KitItem {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly quantity: string;
  readonly inVan: string;
  readonly toPick: string;
  readonly short: string;
}

export interface VisitAhead {
  readonly id: string;
  readonly no: number;
  /** The day at the site */
  readonly onDay: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly state: VisitState;
  readonly siteId: string;
  readonly siteName: string;
  readonly clientName: string;
  readonly timeZone: string;
  readonly accessHours: string;
  readonly note: string;
  readonly people: readonly { readonly personId: string; readonly name: string }[];
  readonly kit: {
    readonly items: readonly KitItem[];
    readonly chemicals: readonly SheetChemical[];
    readonly keepApart: readonly { readonly chemicals: readonly string[]; readonly happens: string }[];
    readonly tools: readonly string[];
    readonly instruments: readonly string[];
  };
  readonly jobs: readonly Sheet[];
}

/** What a device fetches ahead. */
export interface SheetsAhead {
  readonly madeAt: string;
  readonly visits: readonly VisitAhead[];
  readonly places: readonly Place[];
}
