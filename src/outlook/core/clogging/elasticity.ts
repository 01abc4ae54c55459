import { mean } from 'd3-array';
import { type Course, countUntil } from './course.js';
import { lnDensity } from './life-density.js';
import type { LifePrior } from './life-prior.js';

/** How far a clogging part has come and how steeply it climbs: climbed share = (clock / life) ^ exponent, 0 when clean and 1 at the limit. */
export interface Growth {
  /** Level when clean, level now, and the clock at which now was read */
  readonly clean: number;
  readonly level: number;
  readonly at: number;
  /** Share of the way from clean to the limit */
  readonly climbed: number;
  readonly lnExponent: number;
  readonly lnExponentSd: number;
}

/** Exponent before the record says anything, between straight (1) and the steep end of a blocked filter. Common practice says cubic; own guess. */
const USUAL_EXPONENT = { ln: Math.log(3.5), sd: 0.6 };
const EXPONENT_RANGE = [0.7, 25] as const;
/** Keeps the logarithms finite */
const CLIMBED_RANGE = [0.005, 0.995] as const;
const FEWEST_SAMPLES = 5;
const ALWAYS_UNSURE = 0.15;
/** Windows over which level and growth are read, as shares of the clock: short for dense records, longer for daily ones */
const WINDOW = { dense: 0.15, daily: 0.25 } as const;
const DENSE_FROM_SAMPLES = 100;
const EDGE = 1e-9;

/**
 * Growth of the signal of a clogging part since it was new. Clogging is convex: a straight line is late by several times.
 *
 * Clean is the lowest of the means over the first tenth, the second tenth and the first quarter of the clock. The climbed share is read over the last part of the clock and one
 * window before; their ratio gives a local exponent d ln(climbed) / d ln(clock). It is blended with the usual one by precision: its standard deviation is 0.3 / climbed, so that
 * it counts for little near clean and decides near the limit.
 *
 * A signal that has not risen yet counts as just above clean: that it is still there tells a little. `null` with fewer than five samples, or where clean is at the limit.
 *
 * Source: own.
 */
function growthOf({ clock, level }: Course, now: number): Growth | null {
  const count = countUntil(clock, now);
  if (count < FEWEST_SAMPLES || !(now > 0)) return null;
  const middle = (from: number, to: number) => {
    const values: number[] = [];
    for (let i = countUntil(clock, (from - EDGE) * now, count); i < count && (clock[i] as number) <= (to + EDGE) * now; i++) values.push(level[i] as number);
    return mean(values);
  };
  const window = count >= DENSE_FROM_SAMPLES ? WINDOW.dense : WINDOW.daily;
  const half = 0.4 * window;
  const clean = Math.min(...[middle(0, 0.1), middle(0.1, 0.2), middle(0, 0.25)].filter((value) => value !== undefined));
  const recent = middle(1 - half, 1);
  const before = middle(1 - window - half, 1 - window);
  if (recent === undefined || before === undefined || !(clean < 1)) return null;
  const climbed = clamp((recent - clean) / (1 - clean), CLIMBED_RANGE);
  const earlier = clamp((before - clean) / (1 - clean), CLIMBED_RANGE);
  const at = 1 - half / 2;
  const local = clamp(Math.log(climbed / earlier) / Math.log(at / (at - window)), EXPONENT_RANGE);
  const [usual, own] = [1 / USUAL_EXPONENT.sd ** 2, (climbed / 0.3) ** 2];
  return {
    clean,
    level: recent,
    at: at * now,
    climbed,
    lnExponent: (usual * USUAL_EXPONENT.ln + own * Math.log(local)) / (usual + own),
    lnExponentSd: Math.sqrt(1 / (usual + own) + ALWAYS_UNSURE ** 2),
  };
}

function clamp(value: number, [low, high]: readonly [number, number]): number {
  return Math.min(high, Math.max(low, value));
}

const GRID = 400;
/** Lives up to this many times the present clock */
const LONGEST = 25;

/**
 * Share of its life that a part has gone through, from the growth of its own signal and, where there is one, the law of earlier lives: weights on an even grid of shares from 1/25 to 1.
 *
 * A life that would need the exponent p = ln(climbed) / ln(clock / life) is believed by how well ln p fits the blended exponent. Without earlier lives all shares are alike before
 * the signal speaks: a part met at an unknown point of its life has even odds to run as long again (scale-free prior, from memory: Gott 1993).
 *
 * Source: own; Bayes' rule on a grid.
 */
function shareOfLife(growth: Growth | null, prior: LifePrior | null, now: number): { readonly u: Float64Array; readonly weight: Float64Array } {
  const u = Float64Array.from({ length: GRID }, (_, i) => 1 / LONGEST + ((1 - 1 / LONGEST) * (i + 0.5)) / GRID);
  const ln = u.map((share) => {
    const before = prior === null ? 0 : lnDensity(prior, Math.log(now / share)) - Math.log(share);
    if (growth === null) return before;
    const exponent = Math.log(growth.climbed) / Math.log(Math.min((share * growth.at) / now, 1 - EDGE));
    return before - ((Math.log(exponent) - growth.lnExponent) / growth.lnExponentSd) ** 2 / 2;
  });
  const highest = Math.max(...ln);
  return { u, weight: ln.map((value) => Math.exp(value - highest)) };
}

/**
 * What is left of a life by the elasticity of its own signal, in clock units.
 *
 * @example leftByElasticity({ clock: [], level: [] }, null, 100).p50 // => 92.3076923
 */
export function leftByElasticity(course: Course, prior: LifePrior | null, now: number): { readonly p10: number; readonly p50: number; readonly p90: number } {
  const { u, weight } = shareOfLife(growthOf(course, now), prior, now);
  const total = weight.reduce((sum, value) => sum + value, 0);
  const at = (share: number) => {
    let cumulated = 0;
    for (let i = GRID - 1; i >= 0; i--) {
      const next = cumulated + (weight[i] as number);
      if (next >= share * total)
        return now * (1 / ((u[i] as number) + ((0.5 - (share * total - cumulated) / (weight[i] as number)) * (1 - 1 / LONGEST)) / GRID) - 1);
      cumulated = next;
    }
    return now * (LONGEST - 1);
  };
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}
