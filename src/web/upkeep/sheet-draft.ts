import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import type { Hazard, StepKind, TaskKind } from '../../shared/task-sheet.js';
import type { Schemas } from '../api/client.js';
import { readDecimal } from '../readings/hand-fields.js';
import { sheetWords as said } from '../words/task-sheets.js';

type Content = Schemas['TaskSheetContentDto'];
type Version = Schemas['SheetVersionView'];

export interface StepDraft {
  readonly key: string;
  readonly kind: StepKind;
  readonly text: string;
  readonly safety: boolean;
  readonly signal: string;
  readonly unit: string;
  readonly low: string;
  readonly high: string;
}
export interface PartDraft {
  readonly key: string;
  readonly itemId: string;
  /** Shown where the list of items does not hold it */
  readonly name: string;
  readonly quantity: string;
  readonly everyVisit: boolean;
}
export interface ChemicalDraft {
  readonly key: string;
  readonly chemical: string;
  readonly litres: string;
  readonly strength: string;
}

/** The next version while it is written: numbers as they were typed, lists a line each. */
export interface SheetDraft {
  readonly task: string;
  readonly kind: TaskKind;
  readonly usualMinutes: string;
  readonly crew: string;
  readonly waterOffMinutes: string;
  readonly skills: string;
  readonly certificates: string;
  readonly tools: string;
  readonly instruments: string;
  readonly hazards: readonly Hazard[];
  readonly note: string;
  readonly steps: readonly StepDraft[];
  readonly parts: readonly PartDraft[];
  readonly chemicals: readonly ChemicalDraft[];
}

export const LINES = ['skills', 'certificates', 'tools', 'instruments'] as const;
export const EMPTY_STEP: Omit<StepDraft, 'key'> = { kind: 'do', text: '', safety: false, signal: '', unit: '', low: '', high: '' };

export const EMPTY_SHEET: SheetDraft = {
  task: '',
  kind: 'service',
  usualMinutes: '',
  crew: '1',
  waterOffMinutes: '0',
  skills: '',
  certificates: '',
  tools: '',
  instruments: '',
  hazards: [],
  note: '',
  steps: [],
  parts: [],
  chemicals: [],
};

const shown = (value: number | null) => (value === null ? '' : String(value));
/** A decimal number without the zeros that a column adds. */
export const plainDecimal = (text: string) => (text.includes('.') ? text.replace(/0+$/, '').replace(/\.$/, '') : text);

export function draftOf({ task, kind }: { task: string; kind: string }, version: Version): SheetDraft {
  const { usualMinutes, crew, waterOffMinutes, steps, parts, chemicals, hazards, note } = version;
  return {
    task,
    kind: kind as TaskKind,
    usualMinutes: String(usualMinutes),
    crew: String(crew),
    waterOffMinutes: String(waterOffMinutes),
    skills: version.skills.join('\n'),
    certificates: version.certificates.join('\n'),
    tools: version.tools.join('\n'),
    instruments: version.instruments.join('\n'),
    hazards: hazards as Hazard[],
    note,
    steps: steps.map(({ no, signal, unit, low, high, ...step }) => ({
      ...step,
      key: `step ${no}`,
      signal: signal ?? '',
      unit: unit ?? '',
      low: shown(low),
      high: shown(high),
    })),
    parts: parts.map(({ itemId, code, name, quantity, everyVisit }) => ({
      key: itemId,
      itemId,
      name: `${name} (${code})`,
      quantity: plainDecimal(quantity),
      everyVisit,
    })),
    chemicals: chemicals.map(({ chemical, litres, strength }, at) => ({ key: `chemical ${at}`, chemical, litres: String(litres), strength })),
  };
}

const linesOf = (text: string) => [
  ...new Set(
    text
      .split('\n')
      .map((line) => line.trim())
      .filter(Boolean),
  ),
];
const isWhole = (text: string, least: number, most: number) => /^\d{1,6}$/.test(text.trim()) && Number(text) >= least && Number(text) <= most;
const isAbove0 = (text: string) => (readDecimal(text) ?? 0) > 0;

/** What needs a change, by the path of its field, such as `steps/0/unit`. */
export function checkSheet(draft: SheetDraft): Record<string, string> {
  const problems: Record<string, string> = {};
  const tell = (path: string, isWrong: boolean, message: string) => {
    if (isWrong) problems[path] ??= message;
  };
  tell('task', draft.task.trim() === '', said.needTask);
  tell('usualMinutes', !isWhole(draft.usualMinutes, 1, 10_000), said.needMinutes);
  tell('crew', !isWhole(draft.crew, 1, 20), said.needCrew);
  tell('waterOffMinutes', !isWhole(draft.waterOffMinutes, 0, 100_000), said.needWater);
  for (const [at, { kind, text, unit, low, high }] of draft.steps.entries()) {
    const named = said.step(at + 1);
    tell(`steps/${at}/text`, text.trim() === '', said.needText(named));
    if (kind !== 'reading') continue;
    tell(`steps/${at}/unit`, unit.trim() === '', said.needUnit(named));
    tell(`steps/${at}/low`, low.trim() !== '' && readDecimal(low) === undefined, said.needLimit(named, said.low));
    tell(`steps/${at}/high`, high.trim() !== '' && readDecimal(high) === undefined, said.needLimit(named, said.high));
    tell(`steps/${at}/low`, (readDecimal(low) ?? -Infinity) > (readDecimal(high) ?? Infinity), said.wrongLimits(named));
  }
  for (const [at, { itemId, quantity }] of draft.parts.entries()) {
    const named = said.part(at + 1);
    tell(`parts/${at}/itemId`, itemId === '', said.needItem(named));
    tell(`parts/${at}/itemId`, draft.parts.findIndex((part) => part.itemId === itemId) < at, said.twiceItem(named));
    tell(`parts/${at}/quantity`, !isAbove0(quantity), said.needQuantity(named));
  }
  for (const [at, { chemical, litres }] of draft.chemicals.entries()) {
    const named = said.chemicalNo(at + 1);
    tell(`chemicals/${at}/chemical`, chemical.trim() === '', said.needChemical(named));
    tell(`chemicals/${at}/litres`, !isAbove0(litres), said.needLitres(named));
  }
  return problems;
}

/** The version as it is sent. Only a reading has a signal, a unit and limits. */
export function bodyOfSheet(draft: SheetDraft): Content {
  const decimal = (text: string) => readDecimal(text) ?? null;
  return {
    kind: draft.kind,
    usualMinutes: Number(draft.usualMinutes),
    crew: Number(draft.crew),
    waterOffMinutes: Number(draft.waterOffMinutes),
    skills: linesOf(draft.skills),
    certificates: linesOf(draft.certificates),
    tools: linesOf(draft.tools),
    instruments: linesOf(draft.instruments),
    hazards: [...draft.hazards],
    note: draft.note.trim(),
    steps: draft.steps.map(({ kind, text, safety, signal, unit, low, high }) => {
      const step = { kind, text: text.trim(), safety };
      if (kind !== 'reading') return step;
      return { ...step, signal: isSignalCode(signal) ? signal : null, unit: unit.trim(), low: decimal(low), high: decimal(high) };
    }),
    parts: draft.parts.map(({ itemId, quantity, everyVisit }) => ({ itemId, quantity: plainDecimal(quantity.trim().replace(',', '.')), everyVisit })),
    chemicals: draft.chemicals.map(({ chemical, litres, strength }) => ({
      chemical: chemical.trim(),
      litres: decimal(litres) ?? 0,
      strength: strength.trim(),
    })),
  };
}

/** The field that the service means: a list of lines is one field. */
export function sheetPathOf(pointer: string): string {
  const path = pointer.replace(/^#\//, '');
  const [first = ''] = path.split('/');
  return LINES.some((name) => name === first) ? first : path;
}

/** A signal brings the unit it is kept in, unless one was given already. */
export function withSignal(step: StepDraft, signal: string): StepDraft {
  return { ...step, signal, unit: isSignalCode(signal) ? SIGNALS[signal].unit : step.unit };
}

/** A row moved by one place; at the end it stays. */
export function movedBy<Row>(rows: readonly Row[], at: number, by: -1 | 1): readonly Row[] {
  const [row, other] = [rows[at], rows[at + by]];
  if (row === undefined || other === undefined) return rows;
  return rows.map((each, index) => (index === at ? other : index === at + by ? row : each));
}
