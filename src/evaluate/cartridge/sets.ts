import { median } from 'd3-array';
import { daysBetween } from '../../shared/day.js';
import { numberIn, readTable } from '../read-table.js';

/** A set of cartridges from one change to the next, as its pressure drop tells: days since its first value, ascending, and values. */
export interface CartridgeSet {
  readonly from: string;
  readonly days: readonly number[];
  readonly value: readonly number[];
}

const STEP_VALUES = 3;
/** A fall to less than this share of what it was is a change of the set, or of a part of it: nothing else cleans a cartridge. */
const FALLEN_TO = 0.75;
const GAP_DAYS = 14;
const FEWEST_VALUES = 20;

/** Splits a record of days at lasting falls and at gaps. */
export function readSets(file: string, column: string): CartridgeSet[] {
  const rows = readTable(file, ['date', column]).flatMap((row) => {
    const value = numberIn(row, column);
    return value === null || row.date === undefined || !(value > 0) ? [] : [{ date: row.date, value }];
  });
  const sets: (typeof rows)[] = [];
  for (const [i, row] of rows.entries()) {
    const set = sets.at(-1);
    const before = median(set?.slice(-STEP_VALUES) ?? [], ({ value }) => value);
    const after = median(rows.slice(i, i + STEP_VALUES), ({ value }) => value) ?? row.value;
    const gap = daysBetween(set?.at(-1)?.date ?? row.date, row.date);
    if (set === undefined || gap > GAP_DAYS || (before !== undefined && row.value < FALLEN_TO * before && after < FALLEN_TO * before)) sets.push([row]);
    else set.push(row);
  }
  return sets.flatMap((set) => {
    const [first] = set;
    if (first === undefined || set.length < FEWEST_VALUES) return [];
    return [{ from: first.date, days: set.map(({ date }) => daysBetween(first.date, date)), value: set.map(({ value }) => value) }];
  });
}

const SMOOTHED_OVER = 7;

/** Day on which the median of seven values first met the threshold; `null` where it never did, or did from the start. */
export function dayMet({ days, value }: CartridgeSet, threshold: number): number | null {
  const smoothed = value.map((_, i) => median(value.slice(Math.max(0, i - SMOOTHED_OVER + 1), i + 1)) ?? 0);
  const at = smoothed.findIndex((one, i) => i >= SMOOTHED_OVER - 1 && one >= threshold);
  return at < SMOOTHED_OVER ? null : (days[at] ?? null);
}
