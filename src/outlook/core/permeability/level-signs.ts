import { median } from 'd3-array';
import { theilSen } from '../theil-sen.js';
import type { LevelPoint } from './level-point.js';

/** What can be told from a run on a day of it. */
export interface LevelSigns {
  /** Median of the last seven values, none older than a fortnight */
  readonly level: number;
  /** Change of ln(value) per unit of clock over the last sixty days, shrunk where the line is shorter */
  readonly drift: number;
  /** ln(latest value / level) and ln(median of the last fourteen of four weeks / level): a turn of the last days, and a step of the last weeks */
  readonly last: number;
  readonly fortnight: number;
  /** Clock a day over the same days */
  readonly pace: number;
  /** Change of ln(value) per unit of clock in the unit's earlier runs; `null`: not known */
  readonly usual: number | null;
  /** Share of the sixty days that the line spans */
  readonly seen: number;
}

const LEVEL_VALUES = 7;
const LEVEL_DAYS = 15;
const FORTNIGHT_VALUES = 14;
const FORTNIGHT_DAYS = 29;
const LINE_DAYS = 60;
const MOST_POINTS = 60;
/** Daily values are close together and scatter; those that a person reads once a week span more with fewer. */
const FEWEST = [
  { values: 10, days: 14 },
  { values: 4, days: 21 },
] as const;

/**
 * The signs of a run at its point number `at`: nothing later is looked at. `null` with fewer than ten values over fourteen of the last sixty days, or four over three weeks, or where the clock stands still.
 *
 * Source: own composition; Theil-Sen as cited there.
 *
 * @example signsAt([], 0) // => null
 */
export function signsAt(points: readonly LevelPoint[], at: number, usual: number | null = null): LevelSigns | null {
  const last = points[at];
  if (last === undefined) return null;
  const seen = points.slice(Math.max(0, at - LINE_DAYS), at + 1).filter(({ value }) => value > 0);
  const recent = seen.filter(({ dayNo }) => last.dayNo - dayNo < LINE_DAYS);
  const first = recent[0];
  const middle = (values: number, within: number) =>
    median(
      seen.slice(-values).filter(({ dayNo }) => last.dayNo - dayNo < within),
      ({ value }) => value,
    );
  const level = middle(LEVEL_VALUES, LEVEL_DAYS);
  const fortnight = middle(FORTNIGHT_VALUES, FORTNIGHT_DAYS);
  const latest = seen.at(-1);
  if (first === undefined || latest === undefined || level === undefined || fortnight === undefined) return null;
  const days = last.dayNo - first.dayNo;
  const pace = (last.clock - first.clock) / days;
  if (!FEWEST.some((least) => recent.length >= least.values && days >= least.days) || !(pace > 0)) return null;
  const every = Math.ceil(recent.length / MOST_POINTS);
  const line = theilSen(recent.filter((_, i) => (recent.length - 1 - i) % every === 0).map(({ clock, value }) => [clock, Math.log(value)] as const));
  const share = Math.min(1, days / (LINE_DAYS - 1));
  return {
    level,
    drift: (line?.slope ?? 0) * share,
    last: Math.log(latest.value / level),
    fortnight: Math.log(fortnight / level),
    pace,
    usual,
    seen: share,
  };
}
