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
}

const byDay = bisector(({ dayNo }: LevelPoint) => dayNo);

/** Days around the one that is looked at: a single day is noise. */
const AROUND = 2;
const EVERY_DAYS = 7;

/**
 * The changes of a run over each of the horizons, from a day in every week of it; `fewest` values come before the first of them. A horizon that ends after the run, in a gap or beyond the
 * clean, gives none.
 *
 * @example pastChanges({ unit: 'a', points: [] }, [14]) // => []
 */
export function pastChanges({ unit, points }: LevelRun, horizons: readonly number[], fewest = 30): PastChange[] {
  const found: PastChange[] = [];
  const runFrom = points[0]?.dayNo ?? 0;
  let next = Number.NEGATIVE_INFINITY;
  for (let at = fewest; at < points.length; at++) {
    const point = points[at];
    if (point === undefined || point.dayNo < next) continue;
    next = point.dayNo + EVERY_DAYS;
    const signs = signsAt(points, at);
    if (signs === null) continue;
    for (const daysAhead of horizons) {
      const then = around(points, at, point.dayNo + daysAhead);
      if (then !== null) found.push({ unit, runFrom, dayNo: point.dayNo, daysAhead, signs, value: then });
    }
  }
  return found;
}

/** The middle of the values about a day; `null` where there is none within a day of it. */
function around(points: readonly LevelPoint[], after: number, dayNo: number): number | null {
  const near: LevelPoint[] = [];
  for (let i = byDay.left(points, dayNo - AROUND, after + 1); i < points.length && (points[i]?.dayNo ?? Number.POSITIVE_INFINITY) <= dayNo + AROUND; i++) {
    const point = points[i];
    if (point !== undefined && point.value > 0) near.push(point);
  }
  return near.some((point) => Math.abs(point.dayNo - dayNo) <= 1) ? (median(near, ({ value }) => value) ?? null) : null;
}
