import { group, mean, median } from 'd3-array';
import { daysUntil } from '../../outlook/core/days-to-limit.js';
import { changesAhead } from '../../outlook/core/permeability/level-ahead.js';
import { LEVEL_HORIZONS, type LevelLaw, learnLevels } from '../../outlook/core/permeability/level-law.js';
import { signsAt } from '../../outlook/core/permeability/level-signs.js';
import { levelMetWithin } from '../../outlook/core/permeability/level-to-limit.js';
import { pastChanges } from '../../outlook/core/permeability/past-changes.js';
import { theilSen } from '../../outlook/core/theil-sen.js';
import type { Print } from '../evaluation.js';
import { coverage, lateShare, mdape, printer, type Scored } from '../forecast-scores.js';
import type { UnitRun } from './unit-runs.js';

const SHARES = [0.3, 0.5, 0.7, 0.9] as const;
const HORIZON_DAYS = 730;
const LEAST_DAYS = 0.5;
const START_VALUES = 14;
const END_VALUES = 7;
const NEARLY = 0.01;

/** What other units tell of cleans: how far the level has come down (in logarithms) and how many days had passed. */
interface Habit {
  readonly law: LevelLaw;
  readonly falls: readonly number[];
  readonly intervals: readonly number[];
}

/**
 * Days to the next clean at 30, 50, 70 and 90 % of the way to it, for runs between two cleans. When the plant cleans is not written down: the levels at which other units were cleaned, as
 * a share of the level after their clean, stand for the limit, those that this run has passed left out.
 */
export function cleaningFigures(print: Print, { set }: { readonly set: string }, runs: readonly UnitRun[], train: readonly UnitRun[] | null): void {
  const figure = printer(print, { set, case: train === null ? 'unit-unseen' : 'train-test', signal: 'next clean' });
  const habits = new Map<string, Habit>();
  const scored: { at: number; method: string; score: Scored }[] = [];
  for (const run of runs) {
    const { cleanedOn, from, fromClean, unit, points } = run;
    if (cleanedOn === null || !fromClean) continue;
    const habit = habits.get(unit) ?? habitOf(train ?? runs.filter((other) => other.unit !== unit));
    habits.set(unit, habit);
    for (const at of SHARES) {
      const now = from + at * (cleanedOn - from);
      const known = points.filter(({ dayNo }) => dayNo <= now);
      const truth = cleanedOn - (known.at(-1)?.dayNo ?? now);
      for (const [method, said] of Object.entries(saidOf(run, known, habit))) scored.push({ at, method, score: { life: run.name, truth, ...said } });
    }
  }
  for (const [at, ofShare] of group(scored, (one) => one.at)) {
    for (const [method, list] of group(ofShare, (one) => one.method)) {
      const scores = list.map(({ score }) => score);
      const where = { method, at, n: scores.length };
      figure('mdape_remaining', '%', mdape(scores), where);
      figure('late_share', '%', lateShare(scores), where);
      const covered = coverage(scores);
      if (covered === null) continue;
      figure('coverage80', '%', covered.value, { ...where, by_chance: covered.interval.map(Math.round) });
      figure('width80', '%', covered.width, where);
    }
  }
}

function habitOf(runs: readonly UnitRun[]): Habit {
  const whole = runs.filter(({ fromClean, cleanedOn, points }) => fromClean && cleanedOn !== null && points.length >= START_VALUES + END_VALUES);
  return {
    law: learnLevels(runs.flatMap((run) => pastChanges(run, LEVEL_HORIZONS))),
    falls: whole.map(({ points }) => startOf(points) - endOf(points)),
    intervals: whole.map(({ cleanedOn, from }) => (cleanedOn ?? from) - from),
  };
}

type Said = Pick<Scored, 'forecast' | 'low' | 'high'>;

function saidOf(run: UnitRun, known: UnitRun['points'], habit: Habit): Readonly<Record<string, Said>> {
  const now = known.at(-1)?.dayNo ?? run.from;
  const interval = median(habit.intervals) ?? 0;
  const said: Record<string, Said> = { 'usual interval': { forecast: Math.max(LEAST_DAYS, interval - (now - run.from)) } };
  const signs = signsAt(known, known.length - 1);
  if (signs === null || habit.falls.length === 0) return said;
  const fallen = startOf(known) - Math.log(signs.level);
  const left = habit.falls.map((fall) => fall - fallen).filter((distance) => distance > NEARLY);
  const distances = left.length > 0 ? left : [NEARLY];
  const slope = theilSen(known.filter(({ dayNo }) => now - dayNo < 60).map(({ dayNo, value }) => [dayNo, Math.log(value)] as const))?.slope ?? 0;
  said['level and half the drift'] = { forecast: slope < 0 ? (median(distances) ?? NEARLY) / (-slope / 2) : Number.POSITIVE_INFINITY };
  const ahead = changesAhead(habit.law, signs, [], run.unit);
  const limits = distances.map((distance) => levelMetWithin(ahead, { distance, falling: true }));
  const met = (days: number) => mean(limits, (limit) => limit(days)) ?? 0;
  const within = (share: number) => daysUntil(met, share, HORIZON_DAYS) ?? HORIZON_DAYS;
  said.ours = { forecast: within(0.5), low: within(0.1), high: within(0.9) };
  return said;
}

const startOf = (points: UnitRun['points']) => Math.log(median(points.slice(0, START_VALUES), ({ value }) => value) ?? 1);
const endOf = (points: UnitRun['points']) => Math.log(median(points.slice(-END_VALUES), ({ value }) => value) ?? 1);
