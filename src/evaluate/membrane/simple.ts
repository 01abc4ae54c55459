import { median } from 'd3-array';
import type { LevelPoint } from '../../outlook/core/permeability/level-point.js';
import { theilSen } from '../../outlook/core/theil-sen.js';

const RECENT_DAYS = 60;
const LEVEL_VALUES = 7;

/** Value so many days ahead by simple methods, from the points until now. */
export function simpleAhead(points: readonly LevelPoint[]): (daysAhead: number) => Readonly<Record<string, number>> {
  const now = points.at(-1)?.dayNo ?? 0;
  const recent = points.filter(({ dayNo }) => now - dayNo < RECENT_DAYS);
  const level = median(points.slice(-LEVEL_VALUES), ({ value }) => value) ?? 0;
  const robust = theilSen(recent.map(({ dayNo, value }) => [dayNo - now, value] as const));
  const inLog = theilSen(recent.map(({ dayNo, value }) => [dayNo - now, Math.log(value)] as const));
  const all = theilSen(points.map(({ dayNo, value }) => [dayNo - now, value] as const));
  const line = leastSquares(recent.map(({ dayNo, value }) => [dayNo - now, value] as const));
  return (daysAhead) => ({
    'no change': level,
    'straight line, 60 days': line.start + line.slope * daysAhead,
    'Theil-Sen, 60 days': (robust?.intercept ?? level) + (robust?.slope ?? 0) * daysAhead,
    'log-linear Theil-Sen, 60 days': Math.exp((inLog?.intercept ?? Math.log(level)) + (inLog?.slope ?? 0) * daysAhead),
    'Theil-Sen since the clean': (all?.intercept ?? level) + (all?.slope ?? 0) * daysAhead,
    'level and half the drift': level + 0.5 * (robust?.slope ?? 0) * daysAhead,
  });
}

function leastSquares(points: readonly (readonly [number, number])[]): { readonly slope: number; readonly start: number } {
  const count = points.length;
  const [x, y] = points.reduce(([sx, sy], [px, py]) => [sx + px / count, sy + py / count], [0, 0]);
  const squares = points.reduce((sum, [px]) => sum + (px - x) ** 2, 0);
  const slope = squares > 0 ? points.reduce((sum, [px, py]) => sum + (px - x) * (py - y), 0) / squares : 0;
  return { slope, start: y - slope * x };
}
