import { quantileOfT } from '../quantile-of-t.js';
import type { Said } from './members.js';
import type { PastForecast } from './past-forecasts.js';
import type { Quantiles } from './stretched-life.js';

type Member = keyof Said;

/** Bands of the share of life gone in which the ways of forecasting are weighed against each other. */
const BANDS = [0.25, 0.45, 0.62, 0.78, 0.88] as const;
const BAND_MIDDLES = [0.125, 0.35, 0.535, 0.7, 0.83, 0.94] as const;
const FEWEST_IN_BAND = 6;
/** The worst tenth of past errors does not decide between ways of forecasting. */
const WORST = 0.1;
const NEAR = 0.08;
const Z_80 = 1.2815515655446004;
const LEAST_SD = 0.02;
/** Half of what past forecasts were off on the whole is taken off the next one. */
const RECENTRED = 0.5;

/** How the ways of forecasting are put together, learned from past forecasts. */
export interface Combination {
  readonly members: readonly Member[];
  /** Weight of each member in each band */
  readonly weights: readonly (readonly number[])[];
  readonly errors: readonly PastError[];
  readonly newCondition: boolean;
}

interface PastError {
  readonly of: string;
  readonly u: number;
  /** ln(left / forecast) in units of the range the stretched course gave itself */
  readonly z: number;
}

/**
 * Learns from past forecasts how to weigh the ways of forecasting (by the inverse square of their mean squared log errors, band by band of life) and how far off the weighed mean was.
 *
 * Source: stacking by inverse errors, own form; intervals from past errors in the manner of split conformal prediction (Vovk and others, from memory).
 */
export function combinationOf(past: readonly PastForecast[], newCondition: boolean): Combination {
  const members: Member[] = newCondition ? ['stretch', 'ladder', 'lookUp'] : ['stretch', 'ladder'];
  const weights = BAND_MIDDLES.map((_, band) => {
    const inBand = past.filter(({ u }) => bandOf(u) === band);
    if (inBand.length < FEWEST_IN_BAND) return members.map(() => 1 / members.length);
    const trust = members.map((member) => 1 / Math.max(1e-8, meanSquare(inBand.map(({ said, left }) => Math.log(left / midOf(said, member))))) ** 2);
    const total = trust.reduce((sum, value) => sum + value, 0);
    return trust.map((value) => value / total);
  });
  const bare = { members, weights, errors: [], newCondition };
  const errors = past.map(({ key, condition, said, left, u }) => ({
    of: newCondition ? condition : key,
    u,
    z: (Math.log(left) - lnMiddle(bare, said, u)) / ownSd(said),
  }));
  return { ...bare, errors };
}

/**
 * What is left, from what the members say: their weighed middle, and around it the range that past forecasts near this share of life needed, a little wider for how few they were.
 */
export function combined(combination: Combination, said: Said, now: number): Quantiles {
  const u = now / (now + said.stretch.p50);
  const middle = lnMiddle(combination, said, u);
  const sd = ownSd(said);
  const near = combination.errors.map(({ of, u: past, z }) => ({ of, z, weight: Math.exp(-(((past - u) / NEAR) ** 2) / 2) }));
  const cases = effective(near);
  if (cases < 2) return { p10: Math.exp(middle - Z_80 * sd), p50: Math.exp(middle), p90: Math.exp(middle + Z_80 * sd) };
  const sorted = [...near].sort((a, b) => a.z - b.z);
  const [low, half, high] = [0.1, 0.5, 0.9].map((share) => weightedQuantile(sorted, share)) as [number, number, number];
  const wider = (quantileOfT(0.9, cases - 1) / Z_80) * Math.sqrt(1 + 1 / cases);
  const shift = combination.newCondition ? 0 : RECENTRED * half;
  const at = (z: number) => Math.exp(middle + z * sd);
  return { p10: at(Math.min(shift, half + (low - half) * wider)), p50: at(shift), p90: at(Math.max(shift, half + (high - half) * wider)) };
}

const midOf = (said: Said, member: Member): number => (member === 'stretch' ? said.stretch.p50 : said[member]);

const bandOf = (u: number): number => BANDS.filter((cut) => u >= cut).length;

const ownSd = ({ stretch }: Said): number => Math.max(LEAST_SD, Math.log(stretch.p90 / stretch.p10) / (2 * Z_80));

function lnMiddle({ members, weights }: Combination, said: Said, u: number): number {
  const after = BAND_MIDDLES.findIndex((middle) => middle >= u);
  const [from, to] = after < 0 ? [BANDS.length, BANDS.length] : [Math.max(0, after - 1), after];
  const [x0, x1] = [BAND_MIDDLES[from] ?? 0, BAND_MIDDLES[to] ?? 1];
  const share = x1 > x0 ? (u - x0) / (x1 - x0) : 0;
  return members.reduce((sum, member, m) => {
    const weight = (1 - share) * (weights[from]?.[m] ?? 0) + share * (weights[to]?.[m] ?? 0);
    return sum + weight * Math.log(midOf(said, member));
  }, 0);
}

/** Mean square without the worst tenth. */
function meanSquare(values: readonly number[]): number {
  const squares = values.map((value) => value ** 2).sort((a, b) => a - b);
  const kept = squares.slice(0, Math.max(1, Math.ceil((1 - WORST) * squares.length)));
  return kept.reduce((sum, square) => sum + square, 0) / kept.length;
}

/** How many equally weighted cases the weights amount to. */
function effective(near: readonly { readonly of: string; readonly weight: number }[]): number {
  const cases = new Map<string, number>();
  for (const { of, weight } of near) cases.set(of, (cases.get(of) ?? 0) + weight);
  const weights = [...cases.values()];
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const squares = weights.reduce((total, weight) => total + weight ** 2, 0);
  return squares > 0 ? sum ** 2 / squares : 0;
}

function weightedQuantile(sorted: readonly { readonly z: number; readonly weight: number }[], share: number): number {
  const wanted = share * sorted.reduce((sum, { weight }) => sum + weight, 0);
  let [before, beforeZ] = [0, sorted[0]?.z ?? 0];
  let cumulated = 0;
  for (const { z, weight } of sorted) {
    const middle = cumulated + weight / 2;
    if (middle >= wanted) return middle > before && cumulated > 0 ? beforeZ + ((wanted - before) / (middle - before)) * (z - beforeZ) : z;
    [before, beforeZ] = [middle, z];
    cumulated += weight;
  }
  return beforeZ;
}
