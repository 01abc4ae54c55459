import { bisector, median } from 'd3-array';
import type { LevelPoint, LevelRun } from './level-point.js';
import { type LevelSigns, signsAt } from './level-signs.js';

/** What a run did after a day on which it could have been forecast. */
export interface PastChange {
  readonly unit: string;
  /** Names the run among those of its unit: the day on which it begins */
  readonly runFrom: number;
  readonly dayNo: number;
  readonly daysAhead: number;
  readonly signs: LevelSigns;
  readonly value: number;
  /** The run was over before the day came: the value is what it would have been, had it gone on as it had over this share of the way */
  readonly seenShare?: number;
}

const byDay = bisector(({ dayNo }: LevelPoint) => dayNo);

/** Days around the one that is looked at: a single day is noise. */
const AROUND = 2;
/** Where a person reads once a week, the next reading is as near as it gets. */
const AROUND_SPARSE = 4;
const SPARSE_EVERY_DAYS = 5;
const FEWEST_SPARSE = 4;
const EVERY_DAYS = 7;
const END_VALUES = 5;
const FEWEST_LEARNED = 14;
const FEWEST_SEEN = 0.5;

/**
 * The changes of a run over each of the horizons, from a day in every week of it; `fewest` values come before the first of them (as many days, where a value comes once a week). A horizon that ends in a gap gives none; one
 * that ends beyond the clean gives what the level would have come to, where the run `isOver` and half of the way was seen: with runs that lasted alone, levels would seem to fall more slowly than they do.
 *
 * @example pastChanges({ unit: 'a', points: [] }, [14]) // => []
 */
export function pastChanges({ unit, points, usualDrift }: LevelRun, horizons: readonly number[], { fewest = 30, isOver = false } = {}): PastChange[] {
  const found: PastChange[] = [];
  const runFrom = points[0]?.dayNo ?? 0;
  let next = Number.NEGATIVE_INFINITY;
  for (let at = Math.min(fewest, FEWEST_SPARSE); at < points.length; at++) {
    const point = points[at];
    if (point === undefined || point.dayNo < next) continue;
    const days = point.dayNo - runFrom;
    const sparse = at * SPARSE_EVERY_DAYS <= days;
    if (at < fewest && !(sparse && days >= fewest)) continue;
    next = point.dayNo + EVERY_DAYS;
    const signs = signsAt(points, at, usualDrift);
    if (signs === null) continue;
    for (const daysAhead of horizons) {
      const then = around(points, at, point.dayNo + daysAhead, sparse ? { within: AROUND_SPARSE, nearest: AROUND_SPARSE } : { within: AROUND, nearest: 1 });
      const shared = { unit, runFrom, dayNo: point.dayNo, daysAhead, signs };
      if (then !== null) found.push({ ...shared, value: then });
      else if (isOver) {
        const goneOn = asGoneOn(points, point.dayNo, daysAhead, signs.level);
        if (goneOn !== null) found.push({ ...shared, ...goneOn });
      }
    }
  }
  return found;
}

/** What the runs of one unit in their order teach, the last of which goes on: from two weeks of values on. */
export function lessonsOf(runs: readonly LevelRun[], horizons: readonly number[]): PastChange[] {
  return runs.flatMap((run, at) => pastChanges(run, horizons, { fewest: FEWEST_LEARNED, isOver: at < runs.length - 1 }));
}

/** What a level would have come to, had it gone on as it did until its run was over; `null` where less than half of the way was seen. */
function asGoneOn(points: readonly LevelPoint[], from: number, daysAhead: number, level: number): Required<Pick<PastChange, 'value' | 'seenShare'>> | null {
  const last = points.at(-1);
  if (last === undefined || last.dayNo >= from + daysAhead - 1) return null;
  const end = points.slice(-END_VALUES).filter(({ dayNo, value }) => value > 0 && last.dayNo - dayNo < END_VALUES);
  const to = median(end, ({ dayNo }) => dayNo) ?? from;
  const seenShare = (to - from) / daysAhead;
  const value = median(end, (point) => point.value);
  if (value === undefined || seenShare < FEWEST_SEEN) return null;
  return { value: level * Math.exp(Math.log(value / level) / seenShare), seenShare };
}

/** The middle of the values `within` so many days about a day; `null` where not even the `nearest` is as near as that. */
function around(
  points: readonly LevelPoint[],
  after: number,
  dayNo: number,
  { within, nearest }: { readonly within: number; readonly nearest: number },
): number | null {
  const near: LevelPoint[] = [];
  for (let i = byDay.left(points, dayNo - within, after + 1); i < points.length && (points[i]?.dayNo ?? Number.POSITIVE_INFINITY) <= dayNo + within; i++) {
    const point = points[i];
    if (point !== undefined && point.value > 0) near.push(point);
  }
  return near.some((point) => Math.abs(point.dayNo - dayNo) <= nearest) ? (median(near, ({ value }) => value) ?? null) : null;
}
