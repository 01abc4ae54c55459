import { max, sum } from 'd3-array';
import type { Day } from '../../../shared/day.js';
import type { ChemicalClean, FoulingDay } from './resistance-parts.js';
import { startsSince } from './starts-since.js';

/** How fast a membrane fouls by the water that it has filtered, m2/L. */
export type FoulingIndex =
  | {
      readonly kind: 'index';
      readonly perM2L: number;
      readonly standardError: number;
      readonly days: number;
      readonly fromDay: Day;
      readonly loadLPerM2: number;
      /** Since the latest recovery clean, since too few days have gone by after the latest maintenance clean: what those took is not in it */
      readonly throughMaintenance: boolean;
    }
  | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

const LEAST_DAYS = 5;

/**
 * Hydraulically irreversible fouling index: the slope of 1/J's over the filtrate per area since the latest chemical clean, by least squares, from the days' values just after hydraulic
 * cleans only; since the latest recovery clean, where too few days have gone by after the latest maintenance clean. J's is the permeability over that of the first day; 1/J's = 1 + index x volume, so the intercept is free here and the slope is brought to an intercept of one. An index compares with
 * others at the same flux only. Days without a start of runs or a volume say nothing; at least five are needed.
 *
 * Source: Huang, Young, Jacangelo 2008, Environmental Science & Technology 42(3) 714-720 (unified membrane fouling index; equations from memory).
 *
 * @example irreversibleFoulingIndex([], []) // => { "kind": "too-little-data", "have": 0, "need": 5 }
 */
export function irreversibleFoulingIndex(days: readonly FoulingDay[], cleans: readonly ChemicalClean[]): FoulingIndex {
  const latest = max(cleans, ({ day }) => day) ?? '';
  const recovery = max(cleans, ({ kind, day }) => (kind === 'CIP' ? day : undefined)) ?? '';
  const sinceLatest = indexSince(days, latest, false);
  return sinceLatest.kind === 'index' || recovery === latest ? sinceLatest : indexSince(days, recovery, true);
}

function indexSince(days: readonly FoulingDay[], since: Day, throughMaintenance: boolean): FoulingIndex {
  const { starts, loadLPerM2 } = startsSince(days, since);
  const [first] = starts;
  if (first === undefined || starts.length < LEAST_DAYS || loadLPerM2 === 0) return { kind: 'too-little-data', have: starts.length, need: LEAST_DAYS };
  const { slope, intercept, standardError } = leastSquares(starts.map(({ loadLPerM2: x, lmhBar }) => ({ x, y: first.lmhBar / lmhBar })));
  return {
    kind: 'index',
    perM2L: slope / intercept,
    standardError: standardError / intercept,
    days: starts.length,
    fromDay: first.day,
    loadLPerM2,
    throughMaintenance,
  };
}

function leastSquares(points: readonly { readonly x: number; readonly y: number }[]): { slope: number; intercept: number; standardError: number } {
  const n = points.length;
  const meanX = sum(points, ({ x }) => x) / n;
  const meanY = sum(points, ({ y }) => y) / n;
  const sxx = sum(points, ({ x }) => (x - meanX) ** 2);
  const slope = sum(points, ({ x, y }) => (x - meanX) * (y - meanY)) / sxx;
  const intercept = meanY - slope * meanX;
  const rest = sum(points, ({ x, y }) => (y - intercept - slope * x) ** 2);
  return { slope, intercept, standardError: Math.sqrt(rest / Math.max(1, n - 2) / sxx) };
}
