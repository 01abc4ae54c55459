import { median } from 'd3-array';
import type { RecordOfSkid } from '../../outlook/core/skid/as-known-on.js';
import type { OutlookToStore } from '../../outlook/core/skid/known-of-skid.js';
import { daysBetween } from '../../shared/day.js';
import { CURVES } from '../baselines/curves.js';
import type { Scored } from '../forecast-scores.js';

const EPOCH = '2000-01-01';
const HORIZON_DAYS = 730;
const LEAST_DAYS = 0.5;
/** Simple methods that a person could use on a sheet of paper. */
const SIMPLE = ['straight line', 'straight line, last half', 'exponential with offset', 'log-linear Theil-Sen'] as const;

export type Said = Pick<Scored, 'forecast' | 'low' | 'high'>;

/** Days to the limit, counted from a day that lies so many days after the outlook was made; `null`: it could not tell. */
export function daysOf(outlook: OutlookToStore, daysAfter: number): Said | null {
  if (outlook.kind === 'too-little-data') return null;
  if (outlook.kind === 'limit-met') return { forecast: LEAST_DAYS, low: 0, high: LEAST_DAYS };
  const at = (days: number | null) => Math.max(0, (days ?? HORIZON_DAYS) - daysAfter);
  return { forecast: Math.max(LEAST_DAYS, at(outlook.p50Days)), low: at(outlook.p10Days), high: Math.max(LEAST_DAYS, at(outlook.p90Days)) };
}

/** The value so many days after the outlook was made, on its path, which is followed on where it ends before. */
export function valueOnPath({ path }: OutlookToStore, dayAhead: number): Said | null {
  const after = path.findIndex((point) => point.dayAhead >= dayAhead);
  const to = path[after < 0 ? path.length - 1 : Math.max(1, after)];
  const from = path[after < 0 ? path.length - 2 : Math.max(1, after) - 1];
  if (from === undefined || to === undefined) return null;
  const share = (dayAhead - from.dayAhead) / (to.dayAhead - from.dayAhead);
  const at = (name: 'low' | 'mid' | 'high') => from[name] * (to[name] / from[name]) ** share;
  return { forecast: at('mid'), low: at('low'), high: at('high') };
}

export interface Point {
  readonly dayNo: number;
  readonly clock: number;
  readonly value: number;
}

/** What was read of a run since a day: pressure drop of the cartridges or permeability of the membranes. */
export function pointsSince({ days }: RecordOfSkid, from: string, of: 'cartridgeDpKpa' | 'permeability'): Point[] {
  return days.flatMap((day) => {
    const value = day[of];
    const dayNo = daysBetween(EPOCH, day.day);
    return day.day <= from || value === null || !(value > 0) ? [] : [{ dayNo, clock: dayNo, value }];
  });
}

/** Days to the limit by simple methods. A permeability falls to its limit, so that its inverse climbs to it. */
export function simpleDays(points: readonly Point[], limit: number, gone: number, usual: readonly number[], daysAfter: number): Readonly<Record<string, Said>> {
  const falls = (points[0]?.value ?? 0) > limit;
  const rising = (value: number) => (falls ? 1 / value : value);
  const first = points[0]?.dayNo ?? 0;
  const time = points.map(({ dayNo }) => dayNo - first + 1);
  const prefix = { time, value: points.map(({ value }) => rising(value)), limit: rising(limit), now: time.at(-1) ?? 1 };
  const said = SIMPLE.flatMap((name) => {
    const curve = CURVES[name];
    if (curve === undefined || points.length < 3) return [];
    const days = curve(prefix);
    return [[name, { forecast: Math.max(LEAST_DAYS, (Number.isFinite(days) ? Math.min(HORIZON_DAYS, days) : HORIZON_DAYS) - daysAfter) }] as const];
  });
  const life = median(usual);
  return { ...Object.fromEntries(said), ...(life === undefined ? {} : { 'usual days': { forecast: Math.max(LEAST_DAYS, life - gone) } }) };
}
