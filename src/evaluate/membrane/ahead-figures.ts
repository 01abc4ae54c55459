import { group, max, min } from 'd3-array';
import { changesAhead } from '../../outlook/core/permeability/level-ahead.js';
import { type LevelLaw, learnLevels } from '../../outlook/core/permeability/level-law.js';
import { lessonsOf, type PastChange, pastChanges } from '../../outlook/core/permeability/past-changes.js';
import type { Print } from '../evaluation.js';
import { coverage, mdape, printer, type Scored } from '../forecast-scores.js';
import { simpleAhead } from './simple.js';
import type { UnitRun } from './unit-runs.js';

const HORIZONS: readonly number[] = [14, 30, 60];
const FEWEST_VALUES = 60;

/** What is forecast: from sixty values on. */
export const changesOf = (runs: readonly UnitRun[]): PastChange[] => runs.flatMap((run) => pastChanges(run, HORIZONS, { fewest: FEWEST_VALUES }));
/** What is learned from, as in the service. */
export const lessonsOfUnits = (runs: readonly UnitRun[]): PastChange[] =>
  [...group(runs, ({ unit }) => unit).values()].flatMap((own) => lessonsOf(own, HORIZONS));

/** Forecasts every run in every week of it, by the law that is known for a unit on a day, and prints how far off each method was. */
export function aheadFigures(
  print: Print,
  shared: { readonly set: string; readonly case: string; readonly value: string },
  runs: readonly UnitRun[],
  lawFor: (unit: string, dayNo: number) => LevelLaw,
): void {
  const figure = printer(print, { set: shared.set, case: shared.case, signal: shared.value });
  const scores = scoresOf(runs, lawFor);
  for (const daysAhead of HORIZONS) {
    const ofHorizon = scores.filter((one) => one.daysAhead === daysAhead);
    for (const [method, list] of group(ofHorizon, ({ method }) => method)) {
      const units = [...group(list, ({ unit }) => unit).values()];
      const where = { method, at: daysAhead, n: list.length, cycles: new Set(list.map(({ life }) => life)).size };
      figure('mdape_ahead', '%', mdape(list), { ...where, units: 'pooled' });
      figure('mdape_ahead', '%', max(units, (unit) => mdape(unit) ?? 0) ?? null, { ...where, units: 'worst' });
      const covered = coverage(list);
      if (covered === null) continue;
      figure('coverage80', '%', covered.value, { ...where, units: 'pooled', by_chance: covered.interval.map(Math.round) });
      figure('coverage80', '%', min(units, (unit) => coverage(unit)?.value ?? 100) ?? null, { ...where, units: 'worst' });
      figure('width80', '%', covered.width, { ...where, units: 'pooled' });
    }
  }
}

interface LevelScore extends Scored {
  readonly unit: string;
  readonly method: string;
  readonly daysAhead: number;
}

function scoresOf(runs: readonly UnitRun[], lawFor: (unit: string, dayNo: number) => LevelLaw): LevelScore[] {
  const scores: LevelScore[] = [];
  for (const [unit, ofUnit] of group(runs, (run) => run.unit)) {
    const changes = changesOf(ofUnit);
    for (const run of ofUnit) {
      const simple = new Map<number, ReturnType<typeof simpleAhead>>();
      for (const change of changes.filter(({ runFrom }) => runFrom === run.points[0]?.dayNo)) {
        const { dayNo, daysAhead, signs, value: truth } = change;
        const shared = { unit, life: run.name, daysAhead, truth };
        const methods = simple.get(dayNo) ?? simpleAhead(run.points.filter((point) => point.dayNo <= dayNo));
        simple.set(dayNo, methods);
        for (const [method, forecast] of Object.entries(methods(daysAhead))) scores.push({ ...shared, method, forecast });
        // Medians of the days around one ahead are whole two days after it.
        const come = changes.filter((past) => past.dayNo + past.daysAhead + 2 <= dayNo);
        const said = changesAhead(lawFor(unit, dayNo), signs, come, unit).find((one) => one.daysAhead === daysAhead);
        if (said === undefined) continue;
        const at = (off: number) => signs.level * Math.exp(said.change + off);
        scores.push({ ...shared, method: 'ours', forecast: at(0), low: at(-said.reach), high: at(said.reach) });
      }
    }
  }
  return scores;
}

/** Learned from all other units. */
export function lawOfOthers(changes: readonly PastChange[]): (unit: string) => LevelLaw {
  const laws = new Map<string, LevelLaw>();
  return (unit) => {
    const law =
      laws.get(unit) ??
      learnLevels(
        changes.filter((change) => change.unit !== unit),
        HORIZONS,
      );
    laws.set(unit, law);
    return law;
  };
}

/** Learned from all units, this one too, but only from what had come by that day. */
export function lawOfTheDay(changes: readonly PastChange[]): (unit: string, dayNo: number) => LevelLaw {
  const laws = new Map<number, LevelLaw>();
  return (_, dayNo) => {
    const law =
      laws.get(dayNo) ??
      learnLevels(
        changes.filter((change) => change.dayNo + change.daysAhead + 2 <= dayNo),
        HORIZONS,
      );
    laws.set(dayNo, law);
    return law;
  };
}
