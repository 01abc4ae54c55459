import { median } from 'd3-array';
import type { LevelRun } from './level-point.js';

const EDGE_VALUES = 3;
const FEWEST_VALUES = 4;
const FEWEST_DAYS = 14;

/** How ln(value) moved per unit of clock over a whole run; `null` with fewer than four values or two weeks. */
function driftOver({ points }: LevelRun): number | null {
  const [first, last] = [points[0], points.at(-1)];
  if (first === undefined || last === undefined || points.length < FEWEST_VALUES || last.dayNo - first.dayNo < FEWEST_DAYS) return null;
  const side = Math.min(EDGE_VALUES, Math.floor(points.length / 2));
  const [start, end] = [points.slice(0, side), points.slice(-side)];
  const clock = (median(end, (point) => point.clock) ?? 0) - (median(start, (point) => point.clock) ?? 0);
  const change = Math.log((median(end, ({ value }) => value) ?? 0) / (median(start, ({ value }) => value) ?? 0));
  return clock > 0 && Number.isFinite(change) ? change / clock : null;
}

/**
 * Tells each run of a unit, in their order, how its earlier ones went on the whole: the middle of their drifts.
 *
 * @example withUsualDrift([]) // => []
 */
export function withUsualDrift<Run extends LevelRun>(runs: readonly Run[]): Run[] {
  const earlier: number[] = [];
  return runs.map((run) => {
    const usual = median(earlier);
    const drift = driftOver(run);
    if (drift !== null) earlier.push(drift);
    return usual === undefined ? run : { ...run, usualDrift: usual };
  });
}
