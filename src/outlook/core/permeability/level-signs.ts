import { median } from 'd3-array';
import { theilSen } from '../theil-sen.js';
import type { LevelPoint } from './level-point.js';

/** What can be told from a run on a day of it. */
export interface LevelSigns {
  /** Median of the last seven values */
  readonly level: number;
  /** Change of ln(value) per unit of clock over the last sixty days, shrunk where the line is shorter */
  readonly drift: number;
  /** ln(latest value / level) and ln(median of the last fourteen / level): a turn of the last days, and a step of the last weeks */
  readonly last: number;
  readonly fortnight: number;
  /** Clock a day over the same days */
  readonly pace: number;
}

const LEVEL_VALUES = 7;
const FORTNIGHT_VALUES = 14;
const LINE_DAYS = 60;
const MOST_POINTS = 60;
const FEWEST_POINTS = 10;
const FEWEST_DAYS = 14;

/**
 * The signs of a run at its point number `at`: nothing later is looked at. `null` with fewer than ten values over fourteen of the last sixty days, or where the clock stands still.
 *
 * Source: own composition; Theil-Sen as cited there.
 *
 * @example signsAt([], 0) // => null
 */
export function signsAt(points: readonly LevelPoint[], at: number): LevelSigns | null {
  const last = points[at];
  if (last === undefined) return null;
  const seen = points.slice(Math.max(0, at - LINE_DAYS), at + 1).filter(({ value }) => value > 0);
  const recent = seen.filter(({ dayNo }) => last.dayNo - dayNo < LINE_DAYS);
  const first = recent[0];
  const level = median(seen.slice(-LEVEL_VALUES), ({ value }) => value);
  const fortnight = median(seen.slice(-FORTNIGHT_VALUES), ({ value }) => value);
  const latest = seen.at(-1);
  if (first === undefined || latest === undefined || level === undefined || fortnight === undefined || recent.length < FEWEST_POINTS) return null;
  const days = last.dayNo - first.dayNo;
  const pace = (last.clock - first.clock) / days;
  if (days < FEWEST_DAYS || !(pace > 0)) return null;
  const every = Math.ceil(recent.length / MOST_POINTS);
  const line = theilSen(recent.filter((_, i) => (recent.length - 1 - i) % every === 0).map(({ clock, value }) => [clock, Math.log(value)] as const));
  return {
    level,
    drift: (line?.slope ?? 0) * Math.min(1, days / (LINE_DAYS - 1)),
    last: Math.log(latest.value / level),
    fortnight: Math.log(fortnight / level),
    pace,
  };
}
