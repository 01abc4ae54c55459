import { group, median } from 'd3-array';
import { type CleanRun, daysOf } from '../../outlook/core/next-clean/clean-run.js';
import { type CleanHabit, learnHabit, nextClean } from '../../outlook/core/next-clean/next-clean.js';
import { knownFrom, saidOn } from '../../outlook/core/next-clean/said-of-clean.js';
import { LEVEL_HORIZONS, learnLevels } from '../../outlook/core/permeability/level-law.js';
import { pastChanges } from '../../outlook/core/permeability/past-changes.js';
import type { Print } from '../evaluation.js';
import { coverage, lateShare, mdape, printer, type Scored } from '../forecast-scores.js';
import type { UnitRun } from './unit-runs.js';

const SHARES = [0.3, 0.5, 0.7, 0.9] as const;
const LEAST_DAYS = 0.5;

/**
 * Days to the next clean at 30, 50, 70 and 90 % of the way to it, for runs between two cleans: from the runs of all other units (`unit-unseen`), or with the unit's own earlier ones (`unit-known`). When the plant cleans is
 * not written down: how long other runs were, and the levels at which they were cleaned, as a share of the level after their clean, are all there is to go by.
 */
export function cleaningFigures(print: Print, { set }: { readonly set: string }, runs: readonly UnitRun[], train: readonly UnitRun[] | null): void {
  if (train !== null) {
    figuresOf(print, { set, case: 'train-test' }, runs, () => train);
    return;
  }
  figuresOf(print, { set, case: 'unit-unseen' }, runs, (run) => runs.filter(({ unit }) => unit !== run.unit));
  figuresOf(print, { set, case: 'unit-known' }, runs, (run) => runs.filter(({ unit, from }) => unit !== run.unit || from < run.from));
}

function figuresOf(
  print: Print,
  shared: { readonly set: string; readonly case: string },
  runs: readonly UnitRun[],
  knownFor: (run: UnitRun) => readonly UnitRun[],
): void {
  const figure = printer(print, { ...shared, signal: 'next clean' });
  const habits = new Map<string, CleanHabit>();
  const scored: { at: number; method: string; score: Scored }[] = [];
  for (const run of runs) {
    const { cleanedOn, from, fromClean } = run;
    if (cleanedOn === null || !fromClean) continue;
    const known = knownFor(run);
    const key = known.map(({ name }) => name).join();
    const habit = habits.get(key) ?? habitOf(known);
    habits.set(key, habit);
    for (const at of SHARES) {
      const day = Math.floor(from + at * (cleanedOn - from));
      for (const [method, said] of Object.entries(saidOf(run, day, habit)))
        scored.push({ at, method, score: { life: run.name, truth: cleanedOn - day, ...said } });
    }
  }
  for (const [at, ofShare] of group(scored, (one) => one.at)) {
    for (const [method, list] of group(ofShare, (one) => one.method)) {
      const scores = list.map(({ score }) => score);
      const where = { method, at, n: scores.length };
      figure('mdape_remaining', '%', mdape(scores), where);
      figure('median_error', 'd', median(scores, ({ truth, forecast }) => Math.abs(forecast - truth)) ?? null, where);
      figure('late_share', '%', lateShare(scores), where);
      const covered = coverage(scores);
      if (covered === null) continue;
      figure('coverage80', '%', covered.value, { ...where, by_chance: covered.interval.map(Math.round) });
      figure('width80', '%', covered.width, where);
    }
  }
}

const habitOf = (runs: readonly UnitRun[]): CleanHabit =>
  learnHabit(runs.filter(({ fromClean }) => fromClean).map(toCleanRun), learnLevels(runs.flatMap((run) => pastChanges(run, LEVEL_HORIZONS))));

const toCleanRun = ({ unit, points, from, cleanedOn }: UnitRun): CleanRun => ({
  unit,
  points,
  from,
  to: cleanedOn ?? points.at(-1)?.dayNo ?? from,
  ended: cleanedOn === null ? 'running' : 'clean',
});

type Said = Pick<Scored, 'forecast' | 'low' | 'high'>;

function saidOf(run: UnitRun, day: number, habit: CleanHabit): Readonly<Record<string, Said>> {
  const ours = nextClean(habit, run, day);
  const known = knownFrom([], habit.runs, habit.law);
  if (ours === null || known === null) return {};
  const usual = median(
    habit.runs.filter(({ ended }) => ended === 'clean'),
    daysOf,
  );
  const { signal } = saidOn(known, run, day);
  return {
    'usual interval': { forecast: Math.max(LEAST_DAYS, (usual ?? 0) - (day - run.from)) },
    ...(signal === null ? {} : { 'level alone': { forecast: signal } }),
    ours: { forecast: ours.p50, low: ours.p10, high: ours.p90 },
  };
}
