import type { SheetStep } from '../../shared/task-sheet.js';
import { inUnitOfStep } from './in-unit-of-step.js';

/** One line of what was done: what, and the value or how much; marked where somebody should look. */
export interface SummaryLine {
  readonly name: string;
  readonly value: string;
  readonly mark: 'outside its limits' | 'left out' | 'answered no' | null;
}

export interface SummaryTask {
  readonly task: string;
  readonly positionName: string | null;
  readonly outcome: 'done' | 'not done';
  /** Why it was not done, or what was noticed */
  readonly note: string;
  readonly steps: readonly SummaryLine[];
}

/** What a report says was done, for everybody to read: the client too, so nothing of stock or of where it lies. */
export interface ReportSummary {
  readonly tasks: readonly SummaryTask[];
  readonly lines: readonly SummaryLine[];
  readonly note: string;
}

interface StepAnswer {
  readonly no: number;
  readonly outcome: 'done' | 'skipped';
  readonly value?: number | null;
  readonly unit?: string | null;
  readonly yes?: boolean | null;
  readonly why?: string;
}

export interface ReportToSum {
  readonly tasks: readonly {
    readonly taskId: string;
    readonly outcome: 'done' | 'not done';
    readonly whyNot?: string;
    readonly note?: string;
    readonly steps: readonly StepAnswer[];
  }[];
  readonly partsUsed: readonly { readonly itemId: string; readonly quantity: string }[];
  readonly partsFitted: readonly {
    readonly positionId: string;
    readonly itemId: string;
    readonly serialNumber?: string | null;
    readonly lot?: string | null;
    readonly setCount: number;
  }[];
  readonly partsRemoved: readonly { readonly positionId: string; readonly reason: string }[];
  readonly meters: readonly { readonly meterId: string; readonly value: number; readonly exchangedOldFinal?: number | null }[];
  readonly readings: readonly { readonly signal: string; readonly value: number; readonly unit: string }[];
  readonly cleans: readonly {
    readonly kind: string;
    readonly chemical: string;
    readonly strengthMgL?: number | null;
    readonly contactMinutes?: number | null;
  }[];
  readonly integrityTests: readonly { readonly startKpa: number; readonly endKpa: number; readonly minutes: number }[];
  readonly fibreRepairs: readonly { readonly positionId: string; readonly fibres: number }[];
  readonly calibrations: readonly {
    readonly positionId: string;
    readonly unit: string;
    readonly points: readonly { readonly reference: number; readonly asFound: number; readonly asLeft?: number | null }[];
  }[];
  readonly serviceState?: string | null;
  readonly note: string;
}

/** What ids stand for. */
export interface SummaryNames {
  readonly tasks: readonly { readonly id: string; readonly task: string; readonly positionName: string | null; readonly steps: readonly SheetStep[] }[];
  readonly items: ReadonlyMap<string, string>;
  readonly positions: ReadonlyMap<string, string>;
  readonly meters: ReadonlyMap<string, string>;
  readonly signals: (code: string) => string;
}

const line = (name: string, value: string, mark: SummaryLine['mark'] = null): SummaryLine => ({ name, value, mark });

/**
 * What a report says was done, in names instead of ids. A value outside the limits of its step is marked, and so is what was left out or answered no.
 *
 * Source: own wording.
 */
export function summaryOf(report: ReportToSum, names: SummaryNames): ReportSummary {
  const position = (id: string) => names.positions.get(id) ?? 'a position';
  const item = (id: string) => names.items.get(id) ?? 'an item';
  return {
    tasks: report.tasks.map((answer) => taskOf(answer, names)),
    lines: [
      ...report.partsUsed.map(({ itemId, quantity }) => line('Part used', `${quantity} × ${item(itemId)}`)),
      ...report.partsFitted.map(({ positionId, itemId, serialNumber, lot, setCount }) =>
        line(
          `Fitted at ${position(positionId)}`,
          [setCount > 1 ? `${setCount} × ${item(itemId)}` : item(itemId), serialNumber && `serial ${serialNumber}`, lot && `lot ${lot}`]
            .filter(Boolean)
            .join(', '),
        ),
      ),
      ...report.partsRemoved.map(({ positionId, reason }) => line(`Removed at ${position(positionId)}`, reason)),
      ...report.meters.map(({ meterId, value, exchangedOldFinal }) =>
        line(names.meters.get(meterId) ?? 'Meter', exchangedOldFinal == null ? String(value) : `exchanged at ${exchangedOldFinal}, the new one shows ${value}`),
      ),
      ...report.readings.map(({ signal, value, unit }) => line(names.signals(signal), `${value} ${unit}`)),
      ...report.cleans.map(({ kind, chemical, strengthMgL, contactMinutes }) =>
        line(
          kind,
          [chemical, strengthMgL == null ? '' : `${strengthMgL} mg/L`, contactMinutes == null ? '' : `${contactMinutes} min`].filter(Boolean).join(', '),
        ),
      ),
      ...report.integrityTests.map(({ startKpa, endKpa, minutes }) => line('Integrity test', `${startKpa} to ${endKpa} kPa in ${minutes} min`)),
      ...report.fibreRepairs.map(({ positionId, fibres }) => line(`Fibres closed in ${position(positionId)}`, String(fibres))),
      ...report.calibrations.map(({ positionId, unit, points }) => line(`Calibration of ${position(positionId)}`, pointsInWords(points, unit))),
      ...(report.serviceState == null ? [] : [line('The skid is now', report.serviceState)]),
    ],
    note: report.note,
  };
}

function pointsInWords(points: ReportToSum['calibrations'][number]['points'], unit: string): string {
  return points.map(({ reference, asFound, asLeft }) => `${reference} ${unit}: found ${asFound}${asLeft == null ? '' : `, left ${asLeft}`}`).join('; ');
}

function taskOf({ taskId, outcome, whyNot = '', note = '', steps }: ReportToSum['tasks'][number], { tasks }: SummaryNames): SummaryTask {
  const known = tasks.find(({ id }) => id === taskId);
  const own = known?.steps ?? [];
  return {
    task: known?.task ?? 'A task that was not asked for',
    positionName: known?.positionName ?? null,
    outcome,
    note: [whyNot, note].filter(Boolean).join('. '),
    steps:
      outcome === 'not done'
        ? []
        : own.map((step) =>
            stepOf(
              step,
              steps.find(({ no }) => no === step.no),
            ),
          ),
  };
}

function stepOf(step: SheetStep, answer: StepAnswer | undefined): SummaryLine {
  const name = step.text;
  if (answer === undefined || answer.outcome === 'skipped') return line(name, answer?.why ?? '', 'left out');
  if (answer.yes === false) return line(name, 'no', 'answered no');
  if (answer.value == null) return line(name, answer.yes === true ? 'yes' : 'done');
  const value = inUnitOfStep(answer.value, answer.unit, step.unit);
  const outside = value !== null && ((step.low !== null && value < step.low) || (step.high !== null && value > step.high));
  return line(name, [answer.value, answer.unit ?? step.unit ?? ''].join(' ').trim(), outside ? 'outside its limits' : null);
}
