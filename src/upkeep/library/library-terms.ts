import type { SignalCode } from '../../shared/signals.js';
import type { SheetStep, StepKind, TaskKind } from '../../shared/task-sheet.js';
import type { ConditionFigure, OutlookLimit, RulePlace, WhileLaidUp } from '../../shared/upkeep-terms.js';
import type { SheetContent } from '../sheet-content.js';

/** A task sheet of the library. Parts are left to whoever knows the plant. */
export type LibrarySheet = Omit<SheetContent, 'parts'> & { readonly task: string };

/** A rule of the library; its sheet is the one of the same task. */
export interface LibraryRule {
  readonly task: string;
  readonly positionKind: RulePlace;
  readonly runHours: number | null;
  readonly starts: number | null;
  readonly cycles: number | null;
  readonly days: number | null;
  readonly outlookLimit: OutlookLimit | null;
  readonly conditionFigure: ConditionFigure | null;
  readonly conditionAbove: number | null;
  readonly conditionBelow: number | null;
  readonly base: 'floating' | 'fixed';
  readonly graceDays: number | null;
  readonly whileLaidUp: WhileLaidUp;
  readonly contains: readonly string[];
  readonly note: string;
}

/** Where an interval comes from, in words. */
export const FROM = {
  practice: 'Common practice',
  naval: 'From a naval facilities manual (MO-209)',
  building: 'From a building-operations text',
  waterPlant: 'From a water-plant operation and maintenance text',
} as const;

const NOTE = 'Common practice, the maker’s manual wins.';

type Limits = Partial<Omit<LibraryRule, 'task' | 'positionKind' | 'note'>>;

export function rule(task: string, positionKind: RulePlace, limits: Limits, from: string = FROM.practice): LibraryRule {
  return {
    runHours: null,
    starts: null,
    cycles: null,
    days: null,
    outlookLimit: null,
    conditionFigure: null,
    conditionAbove: null,
    conditionBelow: null,
    base: 'floating',
    graceDays: null,
    whileLaidUp: 'stands still',
    contains: [],
    ...limits,
    task,
    positionKind,
    note: `${from}; the maker’s manual wins.`,
  };
}

type Step = Omit<SheetStep, 'no'>;
type More = Partial<Omit<LibrarySheet, 'task' | 'kind' | 'usualMinutes' | 'steps'>>;

export function sheet(task: string, kind: TaskKind, usualMinutes: number, more: More, steps: readonly Step[]): LibrarySheet {
  return {
    crew: 1,
    waterOffMinutes: 0,
    skills: [],
    certificates: [],
    tools: [],
    instruments: [],
    chemicals: [],
    hazards: [],
    note: NOTE,
    ...more,
    task,
    kind,
    usualMinutes,
    steps: steps.map((step, at) => ({ ...step, no: at + 1 })),
  };
}

const plain = (kind: StepKind, text: string, safety: boolean): Step => ({ kind, text, safety, signal: null, unit: null, low: null, high: null });

export const act = (text: string): Step => plain('do', text, false);
export const check = (text: string): Step => plain('check', text, false);
export const photo = (text: string): Step => plain('photograph', text, false);
/** Steps that keep people or water safe. */
export const safe = (text: string): Step => plain('do', text, true);
export const safeCheck = (text: string): Step => plain('check', text, true);

export function reading(text: string, unit: string, about: { signal?: SignalCode; low?: number; high?: number } = {}): Step {
  return { kind: 'reading', text, safety: false, signal: about.signal ?? null, unit, low: about.low ?? null, high: about.high ?? null };
}

export const LOCKED = safeCheck('Switched off, locked out and tagged at the isolator; a try to start it fails');
export const NO_PRESSURE = safeCheck('Isolated by its valves, drained, and the gauge shows no pressure');
export const GUARDS_BACK = safeCheck('Guards are back in place, tools and rags are out, the lock is taken off by whoever put it there');
