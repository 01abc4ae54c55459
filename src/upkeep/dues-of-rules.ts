import { lifeAt } from '../condition/core/life-at.js';
import { localDays } from '../condition/core/local-day.js';
import type { MachineLife } from '../condition/index.js';
import { type Day, dayPlus, daysBetween } from '../shared/day.js';
import { type DueRule, dueDate, type LastDone, type LifeCounter, type LimitDue, USE_LIMITS, type UseLimit } from './core/due-date.js';
import { dueReason } from './core/due-reason.js';
import { absorbSmaller } from './core/nested-tasks.js';
import { plannedForLast } from './core/planned-for-last.js';
import type { DueToStore, UpkeepPosition, UpkeepRuleRow, UpkeepSkid } from './upkeep.repository.js';

export interface RuleFacts {
  readonly skid: UpkeepSkid;
  readonly positions: readonly UpkeepPosition[];
  readonly rules: readonly UpkeepRuleRow[];
  readonly lives: readonly MachineLife[];
  readonly done: readonly { positionId: string | null; task: string; at: Date }[];
}

interface Candidate {
  readonly ruleId: string;
  readonly contains: readonly string[];
  readonly dueOn: Day;
  readonly earliestOn: Day;
  readonly latestOn: Day;
  readonly store: DueToStore;
}

/** What the rules ask for at each position of a skid; a larger service takes the smaller ones with it. */
export function duesOfRules(facts: RuleFacts): DueToStore[] {
  return facts.positions.flatMap((position) => {
    const dues = facts.rules.filter(({ positionKind }) => positionKind === position.kind).map((rule) => dueOf(rule, position, facts));
    const dated = dues.flatMap((store): Candidate[] => {
      const { bestOn, earliestOn, latestOn, task } = store;
      const contains = facts.rules.find(({ id }) => id === store.ruleId)?.contains ?? [];
      return bestOn === null ? [] : [{ ruleId: task, contains, dueOn: bestOn, earliestOn: earliestOn ?? bestOn, latestOn: latestOn ?? bestOn, store }];
    });
    const kept = absorbSmaller(dated).map(({ due, absorbs }) =>
      absorbs.length === 0 ? due.store : { ...due.store, reason: `${due.store.reason} With it: ${absorbs.map(({ store }) => store.task).join(', ')}.` },
    );
    return [...kept, ...dues.filter(({ bestOn }) => bestOn === null)];
  });
}

function dueOf(rule: UpkeepRuleRow, position: UpkeepPosition, facts: RuleFacts): DueToStore {
  const { skid } = facts;
  const base = {
    positionId: position.id,
    ruleId: rule.id,
    outlookId: null,
    task: rule.task,
    taskSheetId: rule.taskSheetId,
    expectedMinutes: rule.expectedMinutes,
  };
  const done = timesDone(rule, position, facts);
  const last = lastDone(rule, done, position, facts);
  if (last === null) {
    const reason = 'It is not known when this was last done. Enter the last time, or the day of commissioning, and a date can be given.';
    return { ...base, limit: 'not known', earliestOn: null, bestOn: null, latestOn: null, reason, computedFrom: ruleInWords(rule) };
  }
  const due = dueDate(toDueRule(rule), last.done, countersOf(position, facts), skid.today);
  return {
    ...base,
    limit: due.limit ?? 'not known',
    earliestOn: due.earliestOn,
    bestOn: due.dueOn,
    latestOn: due.latestOn,
    reason: dueReason(due, skid.today),
    computedFrom: [...ruleInWords(rule), { name: 'Last time', value: `${last.done.day} (${last.from})` }, ...due.byLimit.flatMap(limitInWords)],
  };
}

function toDueRule(rule: UpkeepRuleRow): DueRule {
  const { runHours, starts, cycles, days, base, graceDays } = rule;
  const use = { ...(runHours === null ? {} : { 'run hours': runHours }), ...(starts === null ? {} : { starts }), ...(cycles === null ? {} : { cycles }) };
  return { use, days, base, graceDays };
}

/** A task is done by its own name, or within a larger one that contains it. In order of time. */
function timesDone(rule: UpkeepRuleRow, position: UpkeepPosition, { rules, done }: RuleFacts): Date[] {
  const names = new Set([
    rule.task,
    ...rules.filter(({ contains, positionKind }) => positionKind === rule.positionKind && contains.includes(rule.task)).map(({ task }) => task),
  ]);
  return done.filter(({ positionId, task }) => positionId === position.id && names.has(task)).map(({ at }) => at);
}

function lastDone(rule: UpkeepRuleRow, done: readonly Date[], position: UpkeepPosition, facts: RuleFacts): { done: LastDone; from: string } | null {
  const { timeZone, commissionedOn } = facts.skid;
  const dayOf = localDays(timeZone);
  const entry = done.at(-1);
  const fitted = position.fittedAt;
  const at =
    entry !== undefined && (fitted === null || entry >= fitted)
      ? entry
      : (fitted ?? (commissionedOn === null ? null : new Date(`${commissionedOn}T12:00:00Z`)));
  if (at === null) return null;
  const from = at === entry ? 'service entry' : at === fitted ? 'fitted' : 'commissioned';
  const points = pointsByLimit(position, facts.lives);
  const use = Object.fromEntries(points.map(([limit, life]) => [limit, lifeAt(life.points, at)]));
  const base = { day: dayOf(at.getTime()).day, use };
  if (rule.base === 'floating' || at !== entry) return { done: base, from };
  const firstDay = dayOf((done[0] ?? at).getTime()).day;
  const planned =
    rule.days === null
      ? null
      : plannedForLast(
          done.map((time) => daysBetween(firstDay, dayOf(time.getTime()).day)),
          rule.days,
        );
  const intervals = toDueRule(rule).use;
  const plannedUse = Object.fromEntries(
    points.flatMap(([limit, life]) => {
      const interval = intervals[limit];
      const value =
        interval === undefined
          ? null
          : plannedForLast(
              done.map((time) => lifeAt(life.points, time)),
              interval,
            );
      return value === null ? [] : [[limit, value]];
    }),
  );
  return { done: { ...base, plannedDay: planned === null ? null : dayPlus(firstDay, planned), plannedUse }, from };
}

/** The strokes of a valve are its cycles. */
function pointsByLimit(position: UpkeepPosition, lives: readonly MachineLife[]): [UseLimit, MachineLife][] {
  const own = lives.filter(({ positionId }) => positionId === position.id);
  return USE_LIMITS.flatMap((limit) => {
    const life = own.find(({ counter }) => counter === limit || (limit === 'cycles' && counter === 'strokes'));
    return life === undefined ? [] : [[limit, life] satisfies [UseLimit, MachineLife]];
  });
}

function countersOf(position: UpkeepPosition, { lives, skid }: RuleFacts): Partial<Record<UseLimit, LifeCounter>> {
  const dayOf = localDays(skid.timeZone);
  return Object.fromEntries(
    pointsByLimit(position, lives).map(([limit, { points, asOf, dailyUse }]) => [
      limit,
      { life: points.at(-1)?.life ?? 0, asOf: dayOf(asOf.getTime()).day, dailyUse },
    ]),
  );
}

function ruleInWords(rule: UpkeepRuleRow): { name: string; value: string }[] {
  const { runHours, starts, cycles, days, base } = rule;
  const limits = [
    runHours === null ? [] : `${runHours} run hours`,
    starts === null ? [] : `${starts} starts`,
    cycles === null ? [] : `${cycles} cycles`,
    days === null ? [] : `${days} days`,
  ].flat();
  return [{ name: 'Rule', value: `${limits.join(' or ')}, whichever first; counted from the ${base === 'fixed' ? 'planned day' : 'day it was done'}` }];
}

function limitInWords({ limit, unit, now, lastAt, dailyUse, left, dueOn }: LimitDue): { name: string; value: string }[] {
  if (limit === 'calendar') return [{ name: 'By the calendar', value: dueOn ?? 'no day' }];
  if (now === null || lastAt === null || left === null) return [{ name: `By ${limit}`, value: 'no counter is read' }];
  const use = dailyUse === null ? 'daily use not known' : `${dailyUse.toFixed(1)} ${unit} a day`;
  return [{ name: `By ${limit}`, value: `${Math.round(now - lastAt)} ${unit} since then, ${Math.round(left)} left, ${use}: ${dueOn ?? 'no day'}` }];
}
