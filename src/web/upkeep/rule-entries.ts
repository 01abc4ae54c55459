import { POSITION_KINDS } from '../../shared/position-kinds.js';
import { CONDITION_FIGURES } from '../../shared/upkeep-terms.js';
import type { Schemas } from '../api/client.js';
import { readDecimal } from '../readings/hand-fields.js';
import { ruleWords as said } from '../words/rules.js';

export type Rule = Schemas['RuleView'];
type RuleContent = Schemas['RuleContentDto'];

/** Limits that count something, in the order of the form. */
export const COUNTED = ['runHours', 'starts', 'cycles'] as const;

export const NEW_RULE = {
  taskSheetId: '',
  /** What the chosen sheet is called */
  sheetTask: '',
  task: '',
  positionKind: 'skid',
  runHours: '',
  starts: '',
  cycles: '',
  days: '',
  outlookLimit: '',
  conditionFigure: '',
  conditionAbove: '',
  conditionBelow: '',
  base: 'floating',
  graceDays: '',
  whileLaidUp: 'stands still',
  /** A task a line */
  contains: '',
  note: '',
};
export type RuleField = keyof typeof NEW_RULE;
export type RuleEntries = Readonly<Record<RuleField, string>>;

export const placeName = (kind: string) => (kind === 'skid' ? said.wholeSkid : kind);
export const PLACES = ['skid', ...POSITION_KINDS].map((value) => ({ value, label: placeName(value) }));

export const linesOf = (text: string): string[] => text.split('\n').filter((line) => line !== '');

const shown = (value: number | null) => (value === null ? '' : String(value));

export function entriesOf(rule: Rule): RuleEntries {
  const { taskSheetId, sheetTask, task, positionKind, outlookLimit, conditionFigure, base, whileLaidUp, contains, note } = rule;
  return {
    taskSheetId,
    sheetTask,
    task,
    positionKind,
    runHours: shown(rule.runHours),
    starts: shown(rule.starts),
    cycles: shown(rule.cycles),
    days: shown(rule.days),
    outlookLimit: outlookLimit ?? '',
    conditionFigure: conditionFigure ?? '',
    conditionAbove: shown(rule.conditionAbove),
    conditionBelow: shown(rule.conditionBelow),
    base,
    graceDays: shown(rule.graceDays),
    whileLaidUp,
    contains: contains.join('\n'),
    note,
  };
}

/** The unit in which the limits of a figure are given; empty while none is chosen. */
export const unitOfFigure = (figure: string): string =>
  Object.hasOwn(CONDITION_FIGURES, figure) ? CONDITION_FIGURES[figure as keyof typeof CONDITION_FIGURES].unit : '';

/** What needs a change before the rule is sent, in the words of the form. */
export function checkRule(entries: RuleEntries): Partial<Record<RuleField, string>> {
  const problems: Partial<Record<RuleField, string>> = {};
  const tell = (field: RuleField, isWrong: boolean, message: string) => {
    if (isWrong) problems[field] ??= message;
  };
  const isGiven = (field: RuleField) => entries[field].trim() !== '';
  tell('taskSheetId', !isGiven('taskSheetId'), said.needSheet);
  for (const field of COUNTED) {
    tell(field, isGiven(field) && !((readDecimal(entries[field]) ?? 0) > 0), said.needNumber(said[field]));
    tell(field, isGiven(field) && entries.positionKind === 'skid', said.noCounter);
  }
  tell('days', isGiven('days') && !isWhole(entries.days, 1), said.needWhole(said.days));
  tell('graceDays', isGiven('graceDays') && !(isWhole(entries.graceDays, 0) && Number(entries.graceDays) <= 365), said.needGrace);
  const limits: RuleField[] = [...COUNTED, 'days', 'outlookLimit', 'conditionFigure'];
  tell(
    'days',
    limits.every((field) => !isGiven(field)),
    said.needLimit,
  );
  tell('days', entries.whileLaidUp === 'only then' && !isGiven('days'), said.needDaysLaidUp);
  const [above, below] = [readDecimal(entries.conditionAbove), readDecimal(entries.conditionBelow)];
  tell('conditionAbove', isGiven('conditionAbove') && !((above ?? -1) >= 0), said.needValue(said.conditionAbove));
  tell('conditionBelow', isGiven('conditionBelow') && !((below ?? -1) >= 0), said.needValue(said.conditionBelow));
  const bounded = isGiven('conditionAbove') || isGiven('conditionBelow');
  tell('conditionFigure', bounded && !isGiven('conditionFigure'), said.needFigure);
  tell('conditionAbove', isGiven('conditionFigure') && !bounded, said.needBound);
  tell('conditionBelow', above !== undefined && below !== undefined && below >= above, said.wrongBounds);
  return problems;
}

const isWhole = (text: string, least: number) => /^\d{1,6}$/.test(text.trim()) && Number(text) >= least;

/** The rule as it is sent. An empty task takes the words of its sheet. */
export function bodyOfRule(entries: RuleEntries): RuleContent {
  const counted = (field: RuleField) => (entries[field].trim() === '' ? null : (readDecimal(entries[field]) ?? null));
  return {
    taskSheetId: entries.taskSheetId,
    task: entries.task.trim() || entries.sheetTask,
    positionKind: entries.positionKind as RuleContent['positionKind'],
    runHours: counted('runHours'),
    starts: counted('starts'),
    cycles: counted('cycles'),
    days: counted('days'),
    outlookLimit: (entries.outlookLimit || null) as RuleContent['outlookLimit'] & (string | null),
    conditionFigure: (entries.conditionFigure || null) as RuleContent['conditionFigure'] & (string | null),
    conditionAbove: counted('conditionAbove'),
    conditionBelow: counted('conditionBelow'),
    base: entries.base as RuleContent['base'],
    graceDays: counted('graceDays'),
    whileLaidUp: entries.whileLaidUp as RuleContent['whileLaidUp'],
    contains: linesOf(entries.contains),
    note: entries.note.trim(),
  };
}

/** Which field of the form the service means: of a list, the list. */
export function ruleFieldAt(pointer: string): string {
  const [, first = ''] = pointer.split('/');
  return first;
}
