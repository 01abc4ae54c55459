import { averaged, type Course, type EarlierLife } from './course.js';
import { lnDensity } from './life-density.js';
import type { LifePrior } from './life-prior.js';
import { CELLS, integralTo, profileOf, type UsualCourse, usualCourse } from './usual-course.js';

/** Windows over which the signal is compared, as shares of the clock so far: finer towards now. */
const EDGES = [0, 0.08, 0.2, 0.32, 0.44, 0.56, 0.67, 0.76, 0.83, 0.89, 0.93, 0.965, 1] as const;
const GRID = 160;
const REACH_SDS = 4.5;
/** A part older than all earlier ones still has this much of its life left to say */
const OLDEST = 1.03;
/** Differences between lives are not quite normal, and neighbouring windows not quite independent: the signal counts half; where the condition is new, its course may be another too, and it counts less. */
const SIGNAL_COUNTS = { seen: 0.5, new: 0.15 } as const;
const FLOOR_VARIANCE = 1e-5;
/** Differences within a window are alike over a cell, but not over more than a quarter of one. */
const LONGEST_ALIKE = 4;
/** Courses of another condition say less of this one. */
const OTHER_CONDITION = 0.4;
const FEWEST_OF_GROUP = 4;

export interface Quantiles {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

/** Profiles are made once a life. */
export interface ProfiledLife extends EarlierLife {
  readonly profile: readonly number[];
}

export const profiled = (life: EarlierLife): ProfiledLife => ({ ...life, profile: profileOf(life) });

/** How parts of a condition usually went: of the same group where it has four lives, the same condition before others. */
export function usualFor(
  lives: readonly ProfiledLife[],
  asked: { readonly condition: string; readonly group: string },
  weightOf: (order: number) => number,
): UsualCourse | null {
  const ended = lives.filter((life) => life.ended === 'limit');
  const ofGroup = ended.filter(({ group }) => group === asked.group);
  const used = ofGroup.length >= FEWEST_OF_GROUP ? ofGroup : ended;
  if (used.length < 2) return null;
  return usualCourse(
    used.map(({ profile }) => profile),
    used.map(({ condition, order }) => (condition === asked.condition ? 1 : OTHER_CONDITION) * weightOf(order)),
  );
}

/**
 * The life of a part from the course of its signal so far: earlier lives say how the level goes over normalised life and how long a life is; each life on a grid stretches the usual course
 * over the clock, and is believed by how well the windows of the signal fit, given how lives differ.
 *
 * Log posterior = log prior + half the log likelihood of the window means (normal, with the covariance of the shapes and of what they leave). Quantiles of the life in clock units.
 *
 * Source: own composition of functional principal components and Bayes' rule on a grid.
 */
export function stretchedLife(usual: UsualCourse, prior: LifePrior, condition: 'seen' | 'new', course: Course, now: number): Quantiles | null {
  const signal = averaged(course, now);
  const edges = EDGES.map((share) => share * now).filter((edge) => edge >= signal.from);
  const windows = Math.max(0, edges.length - 1);
  if (windows === 0) return null;
  const seen = new Float64Array(windows);
  for (let k = 0; k < windows; k++) seen[k] = signal.mean(edges[k] as number, edges[k + 1] as number);
  const lnFrom = Math.max(Math.log(now), prior.lnCentre - REACH_SDS * prior.lnScale);
  const lnTo = Math.max(prior.lnCentre + REACH_SDS * prior.lnScale, lnFrom + Math.log(OLDEST));
  const lnLife = (i: number) => lnFrom + ((lnTo - lnFrom) * i) / (GRID - 1);
  const lnWeight = new Float64Array(GRID);
  const fit = fitOf(usual, windows);
  for (let i = 0; i < GRID; i++) lnWeight[i] = lnDensity(prior, lnLife(i)) + SIGNAL_COUNTS[condition] * fit(seen, edges, Math.exp(lnLife(i)));
  return quantilesOf(lnWeight, lnLife);
}

/** Log likelihood of the window means for a life. Asked for every life of the grid: its arrays are used again, and each integral is taken once. */
function fitOf({ mean, shapes, rest }: UsualCourse, windows: number): (seen: Float64Array, edges: readonly number[], life: number) => number {
  const count = shapes.length;
  const sums = [mean, rest, ...shapes];
  const before = new Float64Array(sums.length);
  const off = new Float64Array(windows);
  const loads = new Float64Array(windows * count);
  const cov = new Float64Array(windows * windows);
  return (seen, edges, life) => {
    let u0 = Math.min(1, (edges[0] as number) / life);
    for (let s = 0; s < sums.length; s++) before[s] = integralTo(sums[s] as Float64Array, u0);
    for (let k = 0; k < windows; k++) {
      const u1 = Math.min(1, (edges[k + 1] as number) / life);
      const width = Math.max(u1 - u0, 1e-9);
      let own = 0;
      for (let s = 0; s < sums.length; s++) {
        const until = integralTo(sums[s] as Float64Array, u1);
        const average = (until - (before[s] as number)) / width;
        before[s] = until;
        if (s === 0) off[k] = (seen[k] as number) - average;
        else if (s === 1) own = average;
        else loads[k * count + s - 2] = average;
      }
      for (let j = 0; j <= k; j++) {
        let sum = 0;
        for (let p = 0; p < count; p++) sum += (loads[j * count + p] as number) * (loads[k * count + p] as number);
        cov[k * windows + j] = sum;
      }
      cov[k * windows + k] = (cov[k * windows + k] as number) + own * Math.min(1 / (CELLS * width), LONGEST_ALIKE) + FLOOR_VARIANCE;
      u0 = u1;
    }
    return lnNormal(cov, off, windows);
  };
}

/** Log density of a normal vector, up to a constant, by Cholesky in place: `cov` and `off` are used up. */
function lnNormal(cov: Float64Array, off: Float64Array, n: number): number {
  let [lnDet, square] = [0, 0];
  for (let k = 0; k < n; k++) {
    for (let j = 0; j <= k; j++) {
      let sum = cov[k * n + j] as number;
      for (let i = 0; i < j; i++) sum -= (cov[k * n + i] as number) * (cov[j * n + i] as number);
      cov[k * n + j] = j === k ? Math.sqrt(Math.max(sum, FLOOR_VARIANCE / 10)) : sum / (cov[j * n + j] as number);
    }
    let value = off[k] as number;
    for (let i = 0; i < k; i++) value -= (cov[k * n + i] as number) * (off[i] as number);
    value /= cov[k * n + k] as number;
    off[k] = value;
    lnDet += Math.log(cov[k * n + k] as number);
    square += value * value;
  }
  return -square / 2 - lnDet;
}

/** Quantiles of the life from log weights on an even grid of its logarithm. */
function quantilesOf(lnWeight: Float64Array, lnLife: (i: number) => number): Quantiles {
  let highest = Number.NEGATIVE_INFINITY;
  for (const value of lnWeight) if (value > highest) highest = value;
  const cumulated = new Float64Array(lnWeight.length);
  let total = 0;
  for (const [i, value] of lnWeight.entries()) {
    total += Math.exp(value - highest);
    cumulated[i] = total;
  }
  const at = (share: number) => {
    const wanted = share * total;
    const cell = cumulated.findIndex((sum) => sum >= wanted);
    const below = cell > 0 ? (cumulated[cell - 1] as number) : 0;
    return Math.exp(lnLife(Math.max(0, cell - 0.5 + (wanted - below) / ((cumulated[cell] as number) - below))));
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}
