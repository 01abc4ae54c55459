import { ascending, max, mean, sum } from 'd3-array';
import type { Day } from '../../../shared/day.js';
import { BLOCKING_LAWS, type BlockingLaw, ratioAfter, straightened } from './blocking-laws.js';
import type { ChemicalClean, FoulingDay } from './resistance-parts.js';
import { startsSince } from './starts-since.js';

export interface LawFit {
  readonly law: BlockingLaw;
  /** Middle distance of the days from the law, as a share of the pressure */
  readonly scatter: number;
  /** Filtrate per area from the last day on until the limit; null: no limit is given, or the pressure does not rise */
  readonly toLimitLPerM2: number | null;
}

/** Which law the pressure just after hydraulic cleans follows since the latest recovery clean: the closest first. */
export type BlockingReading =
  | {
      readonly kind: 'reading';
      readonly fromDay: Day;
      readonly days: number;
      /** Rise of the pressure by the closest law, as a share */
      readonly rise: number;
      /** Whether the closest law is told from the next by more than the scatter of days */
      readonly told: boolean;
      readonly fits: readonly LawFit[];
    }
  | { readonly kind: 'too-little-data'; readonly have: number; readonly need: number };

const LEAST_DAYS = 10;
/** Laws part from each other by the square of the rise: below this they are one line for any instrument. */
const LEAST_RISE = 0.1;
/** The closest law is told where the next lies so much farther off. */
const TELLS = 1.15;

/**
 * Reads by which blocking law the start-of-run pressure has risen with the filtrate per area since the latest recovery clean, through maintenance
 * cleans, which come as often as every day: each law is a straight line in its own measure of the
 * pressure, fitted by least squares, and judged by how far the days lie from it. Extrapolating the permeability in a straight line is complete blocking, extrapolating the pressure is a cake.
 *
 * Laws differ little while the rise is small: under 10 % none is told from the others. `limitLmhBar` is the permeability at which a recovery clean is due.
 *
 * Source: Hermia's laws (`straightened`); the judging is our own.
 *
 * @example blockingReading([], [], null) // => { "kind": "too-little-data", "have": 0, "need": 10 }
 */
export function blockingReading(days: readonly FoulingDay[], cleans: readonly ChemicalClean[], limitLmhBar: number | null): BlockingReading {
  const since = max(cleans, ({ kind, day }) => (kind === 'CIP' ? day : undefined)) ?? '';
  const { starts } = startsSince(days, since);
  const [first, last] = [starts[0], starts.at(-1)];
  if (first === undefined || last === undefined || starts.length < LEAST_DAYS || !(last.loadLPerM2 > first.loadLPerM2))
    return { kind: 'too-little-data', have: starts.length, need: LEAST_DAYS };
  const ratios = starts.map(({ loadLPerM2, lmhBar }) => ({ volume: loadLPerM2 - first.loadLPerM2, ratio: first.lmhBar / lmhBar }));
  const fits = BLOCKING_LAWS.map((law) => fitOf(law, ratios, limitLmhBar === null ? null : first.lmhBar / limitLmhBar)).sort((one, other) =>
    ascending(one.scatter, other.scatter),
  );
  const rise = (fits[0]?.riseAtEnd ?? 1) - 1;
  const told = rise >= LEAST_RISE && (fits[1]?.scatter ?? 0) > TELLS * (fits[0]?.scatter ?? 0);
  return {
    kind: 'reading',
    fromDay: first.day,
    days: starts.length,
    rise,
    told,
    fits: fits.map(({ law, scatter, toLimitLPerM2 }) => ({ law, scatter, toLimitLPerM2 })),
  };
}

interface RatioAt {
  readonly volume: number;
  readonly ratio: number;
}

function fitOf(law: BlockingLaw, points: readonly RatioAt[], limit: number | null): LawFit & { readonly riseAtEnd: number } {
  const line = points.map(({ volume, ratio }) => ({ x: volume, y: straightened(law, ratio) }));
  const meanX = mean(line, ({ x }) => x) ?? 0;
  const meanY = mean(line, ({ y }) => y) ?? 0;
  const slope = sum(line, ({ x, y }) => (x - meanX) * (y - meanY)) / sum(line, ({ x }) => (x - meanX) ** 2);
  const at = (x: number) => ratioAfter(law, meanY + slope * (x - meanX));
  const off = points.map(({ volume, ratio }) => Math.abs(Math.log(ratio / at(volume))));
  const end = points.at(-1)?.volume ?? 0;
  const atLimit = limit === null || slope <= 0 ? null : meanX + (straightened(law, limit) - meanY) / slope;
  return {
    law,
    scatter: mean(off) ?? 0,
    toLimitLPerM2: atLimit === null ? null : Math.max(0, atLimit - end),
    riseAtEnd: at(end) / at(0),
  };
}
