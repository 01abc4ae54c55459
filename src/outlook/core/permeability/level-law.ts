import { group } from 'd3-array';
import type { LevelSigns } from './level-signs.js';
import type { PastChange } from './past-changes.js';
import { dot, robustRidge } from './robust-ridge.js';

/** Days ahead for which a law of its own is learned; between them it is interpolated. */
export const LEVEL_HORIZONS: readonly number[] = [7, 14, 30, 60, 90];

/** |ln(value / forecast)| of a unit that was forecast from the others. */
export interface PastMiss {
  readonly unit: string;
  readonly size: number;
  readonly weight: number;
}

export interface HorizonLaw {
  readonly daysAhead: number;
  /** Where the line spans the sixty days: of the unit's own drift, its latest value, its last fortnight, and one (how levels drift on the whole); then the same for younger runs, and of the drift of the unit's earlier runs */
  readonly weights: readonly number[];
  readonly misses: readonly PastMiss[];
}

/** How levels go on after a day between cleans: one law a horizon, ascending. */
export type LevelLaw = readonly HorizonLaw[];

/** Before anything is learned: half the recent drift is believed, and half of what the latest value differs from the week; what a young line lacks of sixty days is filled with half the drift of earlier runs. Chosen on the daily values of four plant units. */
const USUAL = [0.5, 0.5, 0.2, 0, 0.5, 0.5, 0.2, 0, 0.5] as const;
/** A line that spans so much of the sixty days is whole. */
const WHOLE = 0.9;
const NONE_OF_WHOLE = [0, 0, 0, 0] as const;
const USUAL_COUNTS_AS = 3;
const MOST_CHANGE = 0.5;
const NEARER_COUNTS = 0.5;

/**
 * Learns from past changes how far the signs of a day carry: for each horizon the weights of the unit's own drift, its latest value and its last fortnight, and a drift that all share, for young runs also that of the unit's earlier ones;
 * and how far off each unit was when it was forecast from the others. Runs count by the root of their number of weeks: weeks of one run are alike. A horizon
 * leans on the nearer one, and goes by it where it has no changes of whole or of young lines; with nothing to learn from, the usual weights stand and no miss is known.
 *
 * Scaling all values, or the clock, changes nothing.
 *
 * Source: own composition; reliability of simple forecasts of the same kind in test/open-data.
 *
 * @example learnLevels([])[0].weights // => [0.5, 0.5, 0.2, 0, 0.5, 0.5, 0.2, 0, 0.5]
 */
export function learnLevels(changes: readonly PastChange[], horizons: readonly number[] = LEVEL_HORIZONS): LevelLaw {
  const law: HorizonLaw[] = [];
  for (const daysAhead of horizons) {
    const cases = changes.filter((change) => change.daysAhead === daysAhead);
    const usual = usualFor(daysAhead, cases, law.at(-1));
    const misses = [...group(cases, ({ unit }) => unit)].flatMap(([unit, own]) => {
      const weights = fitted(
        cases.filter((change) => change.unit !== unit),
        usual,
      );
      const came = own.filter(({ seenShare }) => seenShare === undefined);
      return came.map((change) => ({ unit, size: missOf(change, weights), weight: 1 / came.length }));
    });
    law.push({ daysAhead, weights: fitted(cases, usual), misses });
  }
  return law;
}

/**
 * What the weights are drawn towards: half way from the usual ones to those of the nearer horizon, the shared drift grown with the days, since how far signs carry changes slowly with the days and few runs last for
 * the longer ones. Of whole or of young lines those of the nearer horizon alone, where this one has no case of them.
 */
function usualFor(daysAhead: number, cases: readonly PastChange[], nearer: HorizonLaw | undefined): readonly number[] {
  if (nearer === undefined) return USUAL;
  const [whole, young] = [cases.some(({ signs }) => signs.seen >= WHOLE), cases.some(({ signs }) => signs.seen < WHOLE)];
  return USUAL.map((weight, at) => {
    const known = (nearer.weights[at] ?? weight) * (at === SHARED || at === SHARED_YOUNG ? daysAhead / nearer.daysAhead : 1);
    const hasCases = at < NONE_OF_WHOLE.length ? whole : young;
    return hasCases ? NEARER_COUNTS * known + (1 - NEARER_COUNTS) * weight : known;
  });
}

const [SHARED, SHARED_YOUNG] = [3, 7];

/** Young runs have weights of their own: their lines are short. */
function featuresOf({ drift, last, fortnight, usual, seen }: LevelSigns, ahead: number): readonly number[] {
  const own = [drift * ahead, last, fortnight, 1];
  return seen >= WHOLE ? own : [...NONE_OF_WHOLE, ...own, (1 - seen) * (usual ?? 0) * ahead];
}

/** ln(value then / level now) by the weights. */
export function changeBy(weights: readonly number[], signs: LevelSigns, ahead: number): number {
  return Math.max(-MOST_CHANGE, Math.min(MOST_CHANGE, dot(weights, featuresOf(signs, ahead))));
}

/** |ln(value / forecast)| of a change by the weights. The clock ahead is that of the recent pace: what came of it was not known. */
export function missOf({ signs, daysAhead, value }: PastChange, weights: readonly number[]): number {
  return Math.abs(Math.log(value / signs.level) - changeBy(weights, signs, signs.pace * daysAhead));
}

function fitted(cases: readonly PastChange[], usual: readonly number[]): readonly number[] {
  const runs = group(cases, ({ unit, runFrom }) => `${unit} ${runFrom}`);
  const sizes = new Map([...runs].map(([run, weeks]) => [run, weeks.length]));
  return robustRidge(
    cases.map(({ unit, runFrom, signs, daysAhead, value, seenShare = 1 }) => ({
      features: featuresOf(signs, signs.pace * daysAhead),
      target: Math.log(value / signs.level),
      // What is carried on from a part of the way is off by as much more as it is carried: weights go by the inverse square of that.
      weight: Math.min(1, seenShare) ** 2 / Math.sqrt(sizes.get(`${unit} ${runFrom}`) ?? 1),
    })),
    usual,
    USUAL_COUNTS_AS,
  );
}
