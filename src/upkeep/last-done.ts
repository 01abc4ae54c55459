import { lifeAt } from '../condition/core/life-at.js';
import { localDays } from '../condition/core/local-day.js';
import type { MachineLife } from '../condition/index.js';
import { type Day, dayPlus } from '../shared/day.js';
import { allContained } from './core/contained-tasks.js';
import { type DueRule, type LastDone, type LastFrom, type LifeCounter, USE_LIMITS, type UseLimit } from './core/due-date.js';
import { countedDays, dayAfterCounted } from './core/laid-up.js';
import { plannedForLast } from './core/planned-for-last.js';
import type { UpkeepPlace, UpkeepRuleRow } from './upkeep.repository.js';
import type { SkidFacts } from './upkeep-facts.js';

/** A time at which a task was done, and what says so. */
interface TimeDone {
  readonly at: Date;
  readonly from: LastFrom;
}

/**
 * When a task was last done at a place, with its counters then and where a fixed plan had it: by its own name, within a larger task that contains it, or by a record of its own (a
 * recovery clean, an integrity test, a calibration). A part that was fitted later begins anew. Null: not known.
 */
export function lastDone(rule: UpkeepRuleRow, place: UpkeepPlace, due: DueRule, facts: SkidFacts): LastDone | null {
  const { timeZone, commissionedOn } = facts.skid;
  const dayOf = (at: Date): Day => localDays(timeZone)(at.getTime()).day;
  const done = timesDone(rule, place, facts);
  const laidUpOn = rule.whileLaidUp === 'only then' ? (facts.laidUp.at(-1)?.from ?? null) : null;
  if (laidUpOn !== null) return sinceLaidUp(done.at(-1), laidUpOn, dayOf);
  const last = latest(done.at(-1), place.fittedAt, commissionedOn);
  if (last === null) return null;
  const points = pointsByLimit(place, facts.lives);
  const use = Object.fromEntries(points.map(([limit, life]) => [limit, lifeAt(life.points, last.at)]));
  const base = { day: dayOf(last.at), use, from: last.from };
  if (rule.base === 'floating' || last !== done.at(-1)) return base;
  return { ...base, ...planned(due, done, points, dayOf) };
}

/** The counters of the part at a place today. The skid as a whole has none. */
export function countersOf(place: UpkeepPlace, { lives, skid, laidUp }: SkidFacts): Partial<Record<UseLimit, LifeCounter>> {
  const standsStill = laidUp.at(-1)?.to === null;
  const dayOf = localDays(skid.timeZone);
  return Object.fromEntries(
    pointsByLimit(place, lives).map(([limit, { points, asOf, dailyUse }]) => [
      limit,
      { life: points.at(-1)?.life ?? 0, asOf: dayOf(asOf.getTime()).day, dailyUse: standsStill ? 0 : dailyUse },
    ]),
  );
}

function timesDone(rule: UpkeepRuleRow, place: UpkeepPlace, { rules, done, cleans, proofs }: SkidFacts): TimeDone[] {
  const sameKind = rules.filter(({ positionKind }) => positionKind === rule.positionKind);
  const larger = sameKind.filter(({ task }) => allContained(task, sameKind).includes(rule.task)).map(({ task }) => task);
  const names = new Set([rule.task, ...larger]);
  const entries = done.filter(({ positionId, task }) => positionId === place.id && names.has(task)).map(({ at }): TimeDone => ({ at, from: 'service entry' }));
  const records = recordsOf(rule, place, cleans, proofs).map((at): TimeDone => ({ at, from: 'record' }));
  return [...entries, ...records].sort((a, b) => a.at.getTime() - b.at.getTime());
}

function recordsOf(
  { sheetKind, outlookLimit, conditionFigure }: UpkeepRuleRow,
  place: UpkeepPlace,
  cleans: SkidFacts['cleans'],
  proofs: SkidFacts['proofs'],
): Date[] {
  const isRecoveryClean = outlookLimit === 'permeability' || conditionFigure === 'permeability share';
  if (sheetKind === 'clean') return place.id === null && isRecoveryClean ? [...cleans] : [];
  return proofs.filter(({ kind, positionId }) => kind === sheetKind && positionId === place.id).map(({ at }) => at);
}

function latest(entry: TimeDone | undefined, fittedAt: Date | null, commissionedOn: Day | null): TimeDone | null {
  if (entry !== undefined && (fittedAt === null || entry.at >= fittedAt)) return entry;
  if (fittedAt !== null) return { at: fittedAt, from: 'fitted' };
  return commissionedOn === null ? null : { at: new Date(`${commissionedOn}T12:00:00Z`), from: 'commissioned' };
}

/** Work on a skid that is laid up counts from the day it was laid up, or from its last time since then. */
function sinceLaidUp(entry: TimeDone | undefined, laidUpOn: Day, dayOf: (at: Date) => Day): LastDone {
  const day = entry === undefined ? null : dayOf(entry.at);
  return day === null || day < laidUpOn ? { day: laidUpOn, use: {}, from: 'laid up' } : { day, use: {}, from: 'service entry' };
}

/** Where a fixed plan had the latest time. */
function planned(due: DueRule, done: readonly TimeDone[], points: readonly [UseLimit, MachineLife][], dayOf: (at: Date) => Day) {
  const { days, use, notCounted = [] } = due;
  const firstDay = dayOf(done[0]?.at ?? new Date(0));
  const at =
    days === null
      ? null
      : plannedForLast(
          done.map((time) => countedDays(firstDay, dayOf(time.at), notCounted)),
          days,
        );
  const plannedUse = Object.fromEntries(
    points.flatMap(([limit, life]) => {
      const interval = use[limit];
      const lives = done.map((time) => lifeAt(life.points, time.at));
      const value = interval === undefined ? null : plannedForLast(lives, interval);
      return value === null ? [] : [[limit, value]];
    }),
  );
  return { plannedDay: at === null ? null : (dayAfterCounted(firstDay, at, notCounted) ?? dayPlus(firstDay, at)), plannedUse };
}

/** The strokes of a valve are its cycles. */
function pointsByLimit(place: UpkeepPlace, lives: readonly MachineLife[]): [UseLimit, MachineLife][] {
  const own = lives.filter(({ positionId }) => positionId === place.id);
  return USE_LIMITS.flatMap((limit) => {
    const life = own.find(({ counter }) => counter === limit || (limit === 'cycles' && counter === 'strokes'));
    return life === undefined ? [] : [[limit, life] satisfies [UseLimit, MachineLife]];
  });
}
