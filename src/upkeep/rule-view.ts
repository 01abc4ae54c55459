import { viewOf } from '../app/index.js';
import type { ConditionFigure, OutlookLimit, WhileLaidUp } from '../shared/upkeep-terms.js';
import { ruleInWords } from './rule-in-words.js';
import { RuleView } from './rules.dto.js';
import type { RuleWithSheet } from './rules.repository.js';

/** A rule as the database keeps it, with its words as what they can be. */
export function asRule(row: RuleWithSheet) {
  return {
    ...row,
    base: row.base as 'floating' | 'fixed',
    outlookLimit: row.outlookLimit as OutlookLimit | null,
    conditionFigure: row.conditionFigure as ConditionFigure | null,
    whileLaidUp: row.whileLaidUp as WhileLaidUp,
  };
}

export function toRuleView(row: RuleWithSheet): RuleView {
  const rule = asRule(row);
  const { id, ruleSetVersionId, skidId, task, positionKind, runHours, starts, cycles, days, outlookLimit, conditionFigure, conditionAbove, conditionBelow } =
    rule;
  const { base, graceDays, whileLaidUp, contains, taskSheetId, taskSheet, note, endedOn, version } = rule;
  const { usualMinutes = 0, crew = 1 } = taskSheet.versions[0] ?? {};
  return viewOf(RuleView, {
    id,
    ruleSetVersionId,
    skidId,
    task,
    positionKind,
    runHours,
    starts,
    cycles,
    days,
    outlookLimit,
    conditionFigure,
    conditionAbove,
    conditionBelow,
    base,
    graceDays,
    whileLaidUp,
    contains,
    taskSheetId,
    sheetTask: taskSheet.task,
    usualMinutes,
    crew,
    inWords: ruleInWords(rule),
    note,
    endedOn: endedOn?.toISOString().slice(0, 10) ?? null,
    version,
  });
}
