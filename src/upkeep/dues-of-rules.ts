import { localDays } from '../condition/core/local-day.js';
import { type Day } from '../shared/day.js';
import type { ConditionFigure } from '../shared/upkeep-terms.js';
import { allContained } from './core/contained-tasks.js';
import { type DatedLimit, type DueDate, type DueRule, dueDate, type LastDone, USE_LIMITS } from './core/due-date.js';
import { dueReason } from './core/due-reason.js';
import { type EffectiveRule, effectiveRules } from './core/effective-rules.js';
import { limitOfCondition } from './core/limit-of-condition.js';
import { limitOfOutlook } from './core/limit-of-outlook.js';
import { absorbSmaller } from './core/nested-tasks.js';
import { typicalGapDays } from './core/typical-gap.js';
import type { ComingTask } from './core/work-ahead.js';
import type { DueToStore } from './dues.repository.js';
import { countersOf, lastDone } from './last-done.js';
import { datedInWords, limitInWords, ruleInWords } from './rule-in-words.js';
import type { DailyFigures, LatestOutlook, OverrideRow, UpkeepPlace, UpkeepRuleRow } from './upkeep.repository.js';
import type { SkidFacts } from './upkeep-facts.js';

/** What the rules ask for at one place of a skid. */
export interface DuesOfPlace {
  readonly dues: readonly DueToStore[];
  /** For the projection: every dated task, also those that a larger one takes with it this time */
  readonly coming: readonly ComingTask[];
  /** Ids of outlooks that a rule here looks at, whether or not it comes first */
  readonly outlookIds: readonly string[];
}

interface RuleDue {
  readonly rule: UpkeepRuleRow;
  readonly contains: readonly string[];
  readonly store: DueToStore;
  readonly everyDays: number | null;
}

/** What the rules ask for at each place of a skid; a larger service takes the smaller ones with it. */
export function duesOfRules(facts: SkidFacts): DuesOfPlace[] {
  return facts.places.map((place) => {
    const sameKind = facts.rules.filter(({ positionKind }) => positionKind === place.kind);
    const found = effectiveRules(place, facts.rules, facts.overrides).map((effective) => dueOf(effective, place, facts, sameKind));
    const dues = found.flatMap(({ due }) => due ?? []);
    const dated = dues.flatMap((due) => {
      const { bestOn, earliestOn, latestOn, task } = due.store;
      return bestOn === null
        ? []
        : [{ ruleId: task, contains: due.contains, dueOn: bestOn, earliestOn: earliestOn ?? bestOn, latestOn: latestOn ?? bestOn, due }];
    });
    const kept = absorbSmaller(dated).map(({ due: { due }, absorbs }) =>
      absorbs.length === 0 ? due.store : { ...due.store, reason: `${due.store.reason} With it: ${absorbs.map(({ ruleId }) => ruleId).join(', ')}.` },
    );
    return {
      dues: [...kept, ...dues.filter(({ store }) => store.bestOn === null).map(({ store }) => store)],
      coming: dated.map(({ due: { rule, everyDays, contains }, dueOn, earliestOn, latestOn }) => {
        const { task, sheetKind, usualMinutes, crew } = rule;
        return { task, kind: sheetKind, contains, dueOn, earliestOn, latestOn, everyDays, personMinutes: usualMinutes * crew };
      }),
      outlookIds: found.flatMap(({ outlook }) => outlook?.id ?? []),
    };
  });
}

function dueOf(
  { rule, override }: EffectiveRule<UpkeepRuleRow, OverrideRow>,
  place: UpkeepPlace,
  facts: SkidFacts,
  sameKind: readonly UpkeepRuleRow[],
): { due?: RuleDue; outlook?: LatestOutlook } {
  const outlook = facts.outlooks.find(({ limitKind, subject }) => limitKind === rule.outlookLimit && (subject === 'membranes' || subject === place.id));
  const seen = outlook === undefined ? {} : { outlook };
  const isLaidUp = facts.laidUp.at(-1)?.to === null;
  if (isLaidUp ? rule.whileLaidUp === 'stands still' : rule.whileLaidUp === 'only then') return seen;
  const due = toDueRule(rule, facts);
  const last = lastDone(rule, place, due, facts);
  const about = { rule, contains: allContained(rule.task, sameKind), everyDays: everyDays(rule, place, facts) };
  const base = {
    positionId: place.id,
    ruleId: rule.id,
    outlookId: outlook?.id ?? null,
    task: rule.task,
    taskSheetId: rule.taskSheetId,
    expectedMinutes: rule.usualMinutes,
  };
  const words = [{ name: 'Rule', value: ruleInWords(rule) }, ...(override === null ? [] : [{ name: 'Other limits at this skid', value: override.reason }])];
  const byDate = datedLimits(rule, outlook, last?.day ?? null, facts);
  const hasCount = due.days !== null || USE_LIMITS.some((limit) => due.use[limit] !== undefined);
  const isDated = byDate.some(({ dueOn }) => dueOn !== null);
  if (last === null && !isDated) {
    if (!hasCount) return seen;
    const reason = 'It is not known when this was last done. Enter the last time, or the day of commissioning, and a date can be given.';
    return { ...seen, due: { ...about, store: { ...base, limit: 'not known', earliestOn: null, bestOn: null, latestOn: null, reason, computedFrom: words } } };
  }
  const since: LastDone = last ?? { day: facts.skid.today, use: {}, from: 'not known' };
  const found = dueDate(last === null ? { ...due, use: {}, days: null } : due, since, countersOf(place, facts), facts.skid.today, byDate);
  // Nothing but what the skid shows could make it due, and it does not.
  if (found.dueOn === null && !hasCount) return seen;
  return { ...seen, due: { ...about, store: { ...base, ...stored(found, since, facts.skid.today, words, outlook) } } };
}

function stored(found: DueDate, since: LastDone, today: Day, words: DueToStore['computedFrom'], outlook: LatestOutlook | undefined) {
  const last = since.from === 'not known' ? 'not known' : `${since.day} (${since.from ?? 'service entry'})`;
  return {
    limit: found.limit ?? 'not known',
    earliestOn: found.earliestOn,
    bestOn: found.dueOn,
    latestOn: found.latestOn,
    reason: dueReason(found, today),
    computedFrom: [
      ...words,
      { name: 'Last time', value: last },
      ...found.byLimit.flatMap(limitInWords),
      ...found.byDate.map(datedInWords),
      ...(outlook === undefined ? [] : [{ name: 'Outlook', value: outlook.reason }]),
    ],
  };
}

function toDueRule({ runHours, starts, cycles, days, base, graceDays, whileLaidUp }: UpkeepRuleRow, { laidUp }: SkidFacts): DueRule {
  const use = { ...(runHours === null ? {} : { 'run hours': runHours }), ...(starts === null ? {} : { starts }), ...(cycles === null ? {} : { cycles }) };
  return { use, days, base, graceDays, notCounted: whileLaidUp === 'stands still' ? laidUp : [] };
}

function datedLimits(rule: UpkeepRuleRow, outlook: LatestOutlook | undefined, lastDay: Day | null, facts: SkidFacts): DatedLimit[] {
  const { today, commissionedOn } = facts.skid;
  const { conditionFigure: figure, conditionAbove: above, conditionBelow: below, graceDays } = rule;
  return [
    ...(outlook === undefined ? [] : [limitOfOutlook(outlook, today)]),
    ...(figure === null
      ? []
      : [limitOfCondition(figure, { above, below }, figureDays(figure, facts), { after: lastDay ?? commissionedOn ?? '', today, graceDays })]),
  ];
}

function figureDays(figure: ConditionFigure, { figures, skid }: SkidFacts) {
  const shareOf = (name: 'lastCip' | 'commissioning') => {
    const baseline = skid.baselines?.[name];
    return ({ permeability }: DailyFigures) => (baseline?.kind === 'baseline' && permeability !== null ? permeability / baseline.permeabilityLmhBar : null);
  };
  const figureOf: Record<ConditionFigure, (day: DailyFigures) => number | null> = {
    'permeability share': shareOf('lastCip'),
    'permeability share of new': shareOf('commissioning'),
    'cartridge dP': ({ cartridgeDpKpa }) => cartridgeDpKpa,
    TMP: ({ tmpKpa }) => tmpKpa,
    'feed turbidity': ({ feedTurbidityNtu }) => feedTurbidityNtu,
  };
  return figures.map((day) => ({ day: day.day, value: figureOf[figure](day) }));
}

/** How often the task comes back at the pace of recent weeks. */
function everyDays(rule: UpkeepRuleRow, place: UpkeepPlace, facts: SkidFacts): number | null {
  const counters = countersOf(place, facts);
  const { use } = toDueRule(rule, facts);
  const intervals = [
    rule.days ?? [],
    USE_LIMITS.flatMap((limit) => {
      const interval = use[limit];
      const perDay = counters[limit]?.dailyUse;
      return interval === undefined || !perDay ? [] : interval / perDay;
    }),
    rule.outlookLimit === null ? [] : (usualGapDays(rule.outlookLimit === 'permeability' ? 'membranes' : (place.id ?? ''), facts) ?? []),
  ].flat();
  return intervals.length === 0 ? null : Math.min(...intervals);
}

/** Days that usually lay between two recovery cleans, or between two sets of cartridges in a housing. */
export function usualGapDays(subject: string, { cleans, proofs, skid }: SkidFacts): number | null {
  const dayOf = localDays(skid.timeZone);
  const moments = subject === 'membranes' ? cleans : proofs.flatMap(({ kind, positionId, at }) => (kind === 'part fitted' && positionId === subject ? at : []));
  return typicalGapDays(moments.map((at) => dayOf(at.getTime()).day));
}
