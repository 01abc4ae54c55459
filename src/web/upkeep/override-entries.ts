import type { Schemas } from '../api/client.js';
import { readDecimal } from '../readings/hand-fields.js';
import { ruleWords } from '../words/rules.js';
import { skidRuleWords as said } from '../words/skid-rules.js';

export const OVERRIDABLE = ['runHours', 'starts', 'cycles', 'days', 'graceDays'] as const;
type Limit = (typeof OVERRIDABLE)[number];
export type OverrideField = Limit | 'where' | 'off' | 'reason';
export type OverrideEntries = Readonly<Record<OverrideField, string>>;

/** Begins with what the rule says, so that only what is different has to be typed. */
export function overrideStart({ rule, positionId }: Pick<Schemas['EffectiveRuleView'], 'rule' | 'positionId'>): OverrideEntries {
  const shown = (value: number | null) => (value === null ? '' : String(value));
  const { runHours, starts, cycles, days } = rule;
  const limits = { runHours: shown(runHours), starts: shown(starts), cycles: shown(cycles), days: shown(days), graceDays: '' };
  return { ...limits, where: positionId ?? '', off: 'no', reason: '' };
}

/** What needs a change before it is sent. */
export function checkOverride(entries: OverrideEntries): Partial<Record<OverrideField, string>> {
  const problems: Partial<Record<OverrideField, string>> = {};
  if (entries.off !== 'yes') {
    const given = OVERRIDABLE.filter((field) => entries[field].trim() !== '');
    for (const field of given) if (!isRight(field, entries[field])) problems[field] = problemOf(field);
    if (given.length === 0) problems.days = said.needLimit;
  }
  if (entries.reason.trim() === '') problems.reason = said.needReason;
  return problems;
}

function isRight(field: Limit, text: string): boolean {
  const value = readDecimal(text);
  if (value === undefined) return false;
  if (field === 'graceDays') return Number.isInteger(value) && value >= 0 && value <= 365;
  return value > 0 && (field !== 'days' || Number.isInteger(value));
}

function problemOf(field: Limit): string {
  if (field === 'graceDays') return ruleWords.needGrace;
  return field === 'days' ? ruleWords.needWhole(said.days) : ruleWords.needNumber(said[field]);
}

/** As it is sent: off, or the limits that hold here. */
export function overrideBody(rule: Pick<Schemas['RuleView'], 'task' | 'positionKind'>, entries: OverrideEntries): Schemas['OverrideDto'] {
  const about = { task: rule.task, positionKind: rule.positionKind as Schemas['OverrideDto']['positionKind'], reason: entries.reason.trim() };
  const where = entries.where === '' ? {} : { positionId: entries.where };
  if (entries.off === 'yes') return { ...about, ...where, off: true };
  const limits = Object.fromEntries(OVERRIDABLE.flatMap((field) => (entries[field].trim() === '' ? [] : [[field, readDecimal(entries[field])]])));
  return { ...about, ...where, off: false, ...limits };
}
