import { bisectRight, mean, quantileSorted } from 'd3-array';
import { daysUntil } from '../days-to-limit.js';
import { metByFurtherLoad } from '../life-posterior.js';
import { changesAhead } from '../permeability/level-ahead.js';
import type { LevelLaw } from '../permeability/level-law.js';
import type { LevelRun } from '../permeability/level-point.js';
import { signsAt } from '../permeability/level-signs.js';
import { levelMetWithin } from '../permeability/level-to-limit.js';
import { type CleanRun, fallOf, startOf } from './clean-run.js';
import { type IntervalLaw, intervalLaw } from './interval-law.js';

/** What each way of forecasting says of the days until the next clean. */
export interface SaidOfClean {
  /** Days since the last one */
  readonly age: number;
  /** The usual interval less the age */
  readonly usual: number;
  /** The middle of the intervals that lasted at least so long, less the age; and its range */
  readonly lasted: { readonly p10: number; readonly p50: number; readonly p90: number };
  /** When the level has come down as far as where others were cleaned; `null`: too little of the signal is known */
  readonly signal: number | null;
}

/** What is known of units other than the one that is asked about, and of its own earlier runs. */
export interface Known {
  readonly intervals: IntervalLaw;
  readonly falls: readonly number[];
  readonly law: LevelLaw;
}

const HORIZON_DAYS = 730;
const LEAST_DAYS = 0.5;
const NEARLY = 0.01;
const MOST_FALLS = 12;

/** `null` where no clean has ended an interval yet. */
export function knownFrom(own: readonly CleanRun[], others: readonly CleanRun[], law: LevelLaw): Known | null {
  const intervals = intervalLaw(own, others);
  return intervals === null ? null : { intervals, law, falls: [...own, ...others].flatMap((run) => fallOf(run) ?? []) };
}

/** What is said on a day of a run, from what was measured until then. */
export function saidOn({ intervals, falls, law }: Known, { unit, points, from, usualDrift }: Omit<CleanRun, 'to' | 'ended'>, day: number): SaidOfClean {
  const age = Math.max(1, day - from);
  const lasted = metByFurtherLoad(age, intervals.law, null);
  const after = (share: number) => Math.max(LEAST_DAYS, daysUntil(lasted, share, HORIZON_DAYS) ?? HORIZON_DAYS);
  const until = bisectRight(
    points.map(({ dayNo }) => dayNo),
    day,
  );
  return {
    age,
    usual: Math.max(LEAST_DAYS, intervals.usual - age),
    lasted: { p10: after(0.1), p50: after(0.5), p90: after(0.9) },
    signal: signalOf({ unit, points: points.slice(0, until), ...(usualDrift === undefined ? {} : { usualDrift }) }, falls, law),
  };
}

function signalOf({ unit, points: known, usualDrift }: LevelRun, falls: readonly number[], law: LevelLaw): number | null {
  const signs = signsAt(known, known.length - 1, usualDrift);
  if (signs === null || falls.length === 0) return null;
  const fallen = startOf(known) - Math.log(signs.level);
  // Where it has come farther down than any other, the next days are as likely as they can be.
  const left = falls.map((fall) => fall - fallen).filter((distance) => distance > NEARLY);
  const ahead = changesAhead(law, signs, [], unit);
  const limits = (left.length > 0 ? thinned(left) : [NEARLY]).map((distance) => levelMetWithin(ahead, { distance, falling: true }));
  const met = (days: number) => mean(limits, (one) => one(days)) ?? 0;
  let [low, high] = [0, HORIZON_DAYS];
  // Whole days are near enough to be weighed, and cheap enough for a fleet.
  while (high - low > 1) {
    const middle = Math.round((low + high) / 2);
    if (met(middle) < 0.5) low = middle;
    else high = middle;
  }
  return high;
}

/** A dozen falls tell no less than a hundred. */
function thinned(falls: readonly number[]): readonly number[] {
  if (falls.length <= MOST_FALLS) return falls;
  const sorted = [...falls].sort((one, other) => one - other);
  return Array.from({ length: MOST_FALLS }, (_, at) => quantileSorted(sorted, (at + 0.5) / MOST_FALLS) ?? 0);
}
