import { group, mean, quantileSorted } from 'd3-array';
import type { LevelLaw } from '../permeability/level-law.js';
import { quantileOfT } from '../quantile-of-t.js';
import { type CleanRun, daysOf } from './clean-run.js';
import { knownFrom, type SaidOfClean, saidOn } from './said-of-clean.js';

/** A forecast for an interval that is over, made as if it were not known. */
interface PastSaying extends SaidOfClean {
  readonly run: CleanRun;
  readonly left: number;
  readonly share: number;
}

/** All that units taught of when they are cleaned. Learned once. */
export interface CleanHabit {
  readonly runs: readonly CleanRun[];
  readonly law: LevelLaw;
  readonly past: readonly PastSaying[];
}

/** Days until the next recovery clean. */
export interface NextClean {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
  /** What the signal counts beside the intervals, from 0 to 1 */
  readonly bySignal: number;
  /** Intervals that it was made from, those that still run among them */
  readonly intervals: number;
}

const ASKED_AT = [0.1, 0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.8, 0.9, 0.95] as const;
/** Bands of the share of the interval gone in which the ways of forecasting are weighed against each other. */
const BANDS = [0.4, 0.7] as const;
const FEWEST_IN_BAND = 6;
const FEWEST_RUNS = 3;
/** The worst tenth of past errors does not decide. */
const KEPT = 0.9;
/** The signal counts where its past errors were smaller than those of the intervals by about a fifth: less may be chance. Chosen on the seven runs of four plant units that test/open-data names. */
const CLEARLY = 0.6;
const LEAST_ERROR = 0.1;
const LEAST_DAYS = 0.5;
const Z_80 = 1.2815515655446004;

/** Learns from the runs of units between recovery cleans: each that is over is forecast from the other units' runs and its own unit's earlier ones. */
export function learnHabit(runs: readonly CleanRun[], law: LevelLaw): CleanHabit {
  const over = runs.filter(({ ended }) => ended === 'clean');
  const past = [...group(over, ({ unit }) => unit)].flatMap(([unit, own]) => {
    const others = runs.filter((run) => run.unit !== unit);
    return own.flatMap((run) => {
      const earlier = own.filter(({ to }) => to <= run.from);
      const known = knownFrom(earlier, others, law);
      if (known === null) return [];
      return ASKED_AT.map((at) => {
        const said = saidOn(known, run, Math.floor(run.from + at * daysOf(run)));
        return { ...said, run, left: run.to - run.from - said.age, share: shareOf(said) };
      }).filter(({ left }) => left > 0);
    });
  });
  return { runs, law, past };
}

/** Share of the interval gone, as earlier intervals would have it. */
const shareOf = ({ age, lasted }: SaidOfClean): number => age / (age + lasted.p50);

const bandOf = (share: number): number => BANDS.filter((cut) => share >= cut).length;

/**
 * Days until the next recovery clean of a unit on a day of its run. Begins with what intervals were: the usual one less the age, and the middle of those that lasted so long, weighed by how near each was in the past at
 * this share of the interval. What the level says (`SaidOfClean.signal`) is added with the share of the interval gone, and only where it was clearly nearer than the intervals in the past. The range is that which past errors of the
 * whole interval had, a little wider for how few they were; with fewer than three past intervals that of the intervals themselves. `null` where no clean has ended an interval yet.
 *
 * Source: own composition; weights by inverse squared errors (stacking, own form), ranges from past errors in the manner of split conformal prediction (Vovk and others, from memory).
 */
export function nextClean({ runs, law, past }: CleanHabit, asked: Omit<CleanRun, 'to' | 'ended'>, day: number): NextClean | null {
  const own = runs.filter(({ unit, ended, to }) => unit === asked.unit && ended === 'clean' && to <= asked.from);
  const others = runs.filter(({ unit }) => unit !== asked.unit);
  const known = knownFrom(own, others, law);
  if (known === null) return null;
  const said = saidOn(known, asked, day);
  const near = past.filter(({ share, run }) => bandOf(share) === bandOf(shareOf(said)) && (run.unit !== asked.unit || run.to <= asked.from));
  const weighed = weightsOf(near);
  const p50 = middleOf(weighed, said);
  return {
    p50,
    ...rangeOf(weighed, near, said, p50),
    bySignal: said.signal === null ? 0 : weighed.signal * shareOf(said),
    intervals: own.length + others.length,
  };
}

interface Weights {
  readonly usual: number;
  readonly signal: number;
}

const byIntervals = (usual: number, said: SaidOfClean): number => usual * said.usual + (1 - usual) * said.lasted.p50;

function middleOf({ usual, signal }: Weights, said: SaidOfClean): number {
  const counts = said.signal === null ? 0 : signal * shareOf(said);
  return Math.max(LEAST_DAYS, (1 - counts) * byIntervals(usual, said) + counts * (said.signal ?? 0));
}

function weightsOf(near: readonly PastSaying[]): Weights {
  if (near.length < FEWEST_IN_BAND) return { usual: 0.5, signal: 0 };
  const usual = trust(
    near.map((one) => one.usual - one.left),
    near.map((one) => one.lasted.p50 - one.left),
  );
  const told = near.flatMap((one) => (one.signal === null ? [] : [{ signal: one.signal - one.left, intervals: byIntervals(usual, one) - one.left }]));
  if (told.length < FEWEST_IN_BAND) return { usual, signal: 0 };
  const signal = trust(
    told.map((one) => one.signal),
    told.map((one) => one.intervals),
  );
  return { usual, signal: signal > CLEARLY ? signal : 0 };
}

/** Weight of the first against the second by the inverse squares of their mean errors. */
function trust(first: readonly number[], second: readonly number[]): number {
  const [one, other] = [meanError(first) ** 2, meanError(second) ** 2];
  return other / (one + other);
}

function meanError(errors: readonly number[]): number {
  const sizes = errors.map(Math.abs).sort((one, other) => one - other);
  return Math.max(LEAST_ERROR, mean(sizes.slice(0, Math.max(1, Math.ceil(KEPT * sizes.length)))) ?? 0);
}

/** In logarithms of the whole interval, since what is left comes near to nought. */
function rangeOf(weights: Weights, near: readonly PastSaying[], said: SaidOfClean, p50: number): { p10: number; p90: number } {
  const cases = new Set(near.map(({ run }) => run)).size;
  if (cases < FEWEST_RUNS) return { p10: Math.min(p50, said.lasted.p10), p90: Math.max(p50, said.lasted.p90) };
  const errors = near.map((one) => Math.log((one.age + one.left) / (one.age + middleOf(weights, one)))).sort((one, other) => one - other);
  const wider = (quantileOfT(0.9, cases - 1) / Z_80) * Math.sqrt(1 + 1 / cases);
  const end = (share: number) => (said.age + p50) * Math.exp(wider * (quantileSorted(errors, share) ?? 0)) - said.age;
  return { p10: Math.max(LEAST_DAYS, Math.min(p50, end(0.1))), p90: Math.max(p50, end(0.9)) };
}
