import { deviation, median } from 'd3-array';
import { type Day, daysBetween } from '../../shared/day.js';
import { theilSen } from './theil-sen.js';

export interface PermeabilityPoint {
  readonly day: Day;
  readonly loadM3PerM2: number;
  readonly permeability: number;
}

/** How a permeability moves with the load, in natural logarithms per m3 of filtrate per m2; a decline counts positive. */
export interface Drift {
  /** Median of the last seven days */
  readonly level: number;
  readonly decline: number;
  /** How far the decline may be off (standard deviation) */
  readonly declineSd: number;
  /** Random part: standard deviation per root of m3/m2 */
  readonly spread: number;
  /** Whether the record itself shows a decline that its scatter could not make: the 80 % limits of the slope leave out zero */
  readonly clear: boolean;
}

const RECENT_DAYS = 60;
const LEVEL_DAYS = 7;
const MOST_POINTS = 120;
const FEWEST_POINTS = 10;
const FEWEST_DAYS = 14;
/** Half of what the recent line says is believed: recent slopes are partly season and noise. Reference figures in test/open-data. */
const BELIEVED = 0.5;
const Z_80 = 1.2815515655446004;
/** Least random movement of ln(permeability) per root of a day, and how many weekly changes that guess counts as. Common practice, first version. */
const FLOOR_PER_ROOT_DAY = 0.003;
const FLOOR_COUNTS_AS = 3;

/**
 * Level and drift of a permeability since the last recovery clean: the median of the last seven days, and half the Theil-Sen slope of ln(permeability)
 * over the load of the last 60 days; where earlier runs between cleans are known, the other half is their median. How far that may be off comes
 * from the limits of the slope, from the halving itself (the whole slope and none of it are its ends, 1 in 10 each) and from the scatter between earlier runs.
 *
 * The random part is read from the changes between weekly medians, drawn towards a floor of 0.3 % per root of a day and never below it: intervals from
 * the scatter of single days cover far too little. `null` with fewer than 10 points over 14 days within the last 60; earlier runs alone are not enough, since the level of a
 * membrane after a clean differs from one clean to the next.
 *
 * Source: own composition; Theil-Sen as cited there; the figures are common practice, the floor settled on the open plant record of test/open-data.
 *
 * @example driftOf([], []) // => null
 */
export function driftOf(points: readonly PermeabilityPoint[], earlierDeclines: readonly number[]): Drift | null {
  const last = points.at(-1);
  if (last === undefined) return null;
  const recent = thin(points.filter(({ day, permeability }) => daysBetween(day, last.day) < RECENT_DAYS && permeability > 0));
  const first = recent[0];
  if (first === undefined || recent.length < FEWEST_POINTS || daysBetween(first.day, last.day) < FEWEST_DAYS) return null;
  const line = theilSen(
    recent.map(({ loadM3PerM2, permeability }) => [loadM3PerM2, Math.log(permeability)] as const),
    Z_80,
  );
  const level = median(
    recent.filter(({ day }) => daysBetween(day, last.day) < LEVEL_DAYS),
    ({ permeability }) => permeability,
  );
  if (line === null || level === undefined) return null;
  const earlier = median(earlierDeclines) ?? 0;
  const decline = Math.max(0, BELIEVED * -line.slope + (1 - BELIEVED) * earlier);
  const ofSlope = (BELIEVED * (line.high - line.low)) / (2 * Z_80);
  const ofHalving = (BELIEVED * Math.abs(line.slope + earlier)) / Z_80;
  const ofRuns = (1 - BELIEVED) * (deviation(earlierDeclines) ?? earlier);
  return {
    level,
    decline,
    declineSd: Math.hypot(ofSlope, ofHalving, ofRuns),
    spread: spreadOf(recent, -line.slope, (last.loadM3PerM2 - first.loadM3PerM2) / daysBetween(first.day, last.day)),
    clear: line.high < 0,
  };
}

/** Random movement per root of load, from the changes between medians of whole weeks, counted back from the last day. */
function spreadOf(points: readonly PermeabilityPoint[], decline: number, dailyLoad: number): number {
  const lastDay = points.at(-1)?.day ?? '';
  const weeks = new Map<number, PermeabilityPoint[]>();
  for (const point of points) {
    const week = Math.floor(daysBetween(point.day, lastDay) / 7);
    weeks.set(week, [...(weeks.get(week) ?? []), point]);
  }
  const middles = [...weeks.values()].map((week) => ({
    load: median(week, ({ loadM3PerM2 }) => loadM3PerM2) ?? 0,
    ln: Math.log(median(week, ({ permeability }) => permeability) ?? 1),
  }));
  const floor = FLOOR_PER_ROOT_DAY ** 2 / dailyLoad;
  let [sum, count] = [FLOOR_COUNTS_AS * floor, FLOOR_COUNTS_AS];
  for (const [i, middle] of middles.slice(1).entries()) {
    const before = middles[i];
    if (before === undefined || middle.load <= before.load) continue;
    const over = middle.load - before.load;
    sum += (middle.ln - before.ln + decline * over) ** 2 / over;
    count += 1;
  }
  return Math.sqrt(Math.max(floor, sum / count));
}

/** At most about 120 points, evenly, the last one always: the work of Theil-Sen grows with the square. */
function thin(points: readonly PermeabilityPoint[]): readonly PermeabilityPoint[] {
  const every = Math.ceil(points.length / MOST_POINTS);
  return points.filter((_, i) => (points.length - 1 - i) % every === 0);
}
