import { inferredCleans } from '../../../condition/core/fouling/inferred-cleans.js';
import { type Day, daysBetween } from '../../../shared/day.js';
import type { CleanRun } from '../next-clean/clean-run.js';
import { type CleanHabit, learnHabit } from '../next-clean/next-clean.js';
import { LEVEL_HORIZONS, type LevelLaw, learnLevels } from '../permeability/level-law.js';
import type { LevelRun } from '../permeability/level-point.js';
import { EPOCH, fluxSteps, levelRuns } from '../permeability/level-runs.js';
import { lessonsOf, type PastChange } from '../permeability/past-changes.js';
import type { OutlookDay } from './known-of-skid.js';

/** The record of the membranes of one skid. */
export interface MembraneRecord {
  readonly unit: string;
  readonly areaM2: number;
  readonly days: readonly OutlookDay[];
  /** Recovery cleans */
  readonly cleans: readonly Day[];
  /** Days on which modules or the area changed */
  readonly changes: readonly Day[];
}

/** What one skid teaches the fleet. */
export interface UnitTaught {
  readonly changes: readonly PastChange[];
  readonly cleanRuns: readonly CleanRun[];
}

/** What the fleet's membranes taught, and when. */
export interface LearnedMembranes {
  readonly law: LevelLaw;
  /** Runs between cleans that it was learned from */
  readonly runs: number;
  readonly habit: CleanHabit;
  readonly at: Date;
}

/** Of when units are cleaned the latest runs are learned from: further ones say little new, and each is forecast from the others. */
const MOST_CLEAN_RUNS = 24;

/** The runs of a record, broken where something made the level another one: a clean that nobody wrote down, modules or area changed, another flux. */
export function runsOf({ unit, days, cleans, changes, areaM2 }: MembraneRecord): LevelRun[] {
  const unwritten = inferredCleans(
    days.map(({ day, permeability }) => ({ day, startLmhBar: null, meanLmhBar: permeability, loadM3PerM2: null })),
    cleans.map((day) => ({ kind: 'CIP', day })),
  );
  const flux = fluxSteps(days.map(({ day, fluxLmh = null }) => ({ day, fluxLmh })));
  return levelRuns(unit, days, { cleans, cuts: [...changes, ...unwritten.map(({ day }) => day), ...flux], areaM2 });
}

/** Runs from one recovery clean to the next; what came before the first is of unknown age. The last one goes on. */
export function cleanRunsOf({ unit, days, cleans, areaM2 }: MembraneRecord): CleanRun[] {
  const lastDay = days.at(-1)?.day;
  const starts = [...new Set(cleans)].sort((one, other) => one.localeCompare(other));
  const runs = levelRuns(unit, days, { cleans: starts, cuts: [], areaM2 }).slice(1);
  return runs.flatMap((run, at): CleanRun[] => {
    const [from, next] = [starts[at], starts[at + 1]];
    const to = next ?? lastDay;
    if (from === undefined || to === undefined || to <= from) return [];
    return [{ ...run, from: daysBetween(EPOCH, from), to: daysBetween(EPOCH, to), ended: next === undefined ? 'running' : 'clean' }];
  });
}

export function taughtBy(record: MembraneRecord): UnitTaught {
  return { changes: lessonsOf(runsOf(record), LEVEL_HORIZONS), cleanRuns: cleanRunsOf(record) };
}

/** What all skids taught together; `null` where none had weeks to learn from. */
export function learnMembranes(taught: readonly UnitTaught[], at: Date): LearnedMembranes | null {
  const changes = taught.flatMap((unit) => unit.changes);
  const law = learnLevels(changes);
  if (changes.length === 0) return null;
  const latest = taught.flatMap(({ cleanRuns }) => cleanRuns).sort((one, other) => other.to - one.to);
  const runs = new Set(changes.map(({ unit, runFrom }) => `${unit} ${runFrom}`)).size;
  return { law, runs, habit: learnHabit(latest.slice(0, MOST_CLEAN_RUNS), law), at };
}
