import { group } from 'd3-array';
import type { LevelPoint, LevelRun } from '../../outlook/core/permeability/level-point.js';
import { withUsualDrift } from '../../outlook/core/permeability/usual-drift.js';
import { daysBetween } from '../../shared/day.js';
import { numberIn, type Row, readTable } from '../read-table.js';

/** A run of one unit between cleans, for one of its values. */
export interface UnitRun extends LevelRun {
  readonly name: string;
  /** Day of the clean that ended it; `null` where the record ended it */
  readonly cleanedOn: number | null;
  /** Whether a clean began it, so that its age is known */
  readonly fromClean: boolean;
  readonly from: number;
}

const EPOCH = '2000-01-01';
/** The days after a clean are not yet its level. */
const SETTLED_AFTER_DAYS = 5;

export function readUnits(file: string): Row[] {
  return readTable(file, ['date', 'unit', 'cip']);
}

/** Splits the record of each unit at its cleans. The clock is days: what ran through is not in every file. */
export function unitRuns(rows: readonly Row[], column: string): UnitRun[] {
  return [...group(rows, (row) => row.unit ?? '')].flatMap(([unit, own]) => {
    const days = own.map((row) => ({ row, dayNo: daysBetween(EPOCH, row.date ?? EPOCH) })).sort((one, other) => one.dayNo - other.dayNo);
    const first = days[0]?.dayNo ?? 0;
    const cleans = days.filter(({ row }) => (numberIn(row, 'cip') ?? 0) > 0).map(({ dayNo }) => dayNo);
    const starts = cleans.includes(first) ? cleans : [first, ...cleans];
    const runs = starts.map((from, i): UnitRun => {
      const cleanedOn = starts[i + 1] ?? null;
      const points = days.flatMap(({ row, dayNo }): LevelPoint[] => {
        const value = numberIn(row, column);
        const inRun = dayNo >= from + SETTLED_AFTER_DAYS && (cleanedOn === null || dayNo < cleanedOn);
        return inRun && value !== null && value > 0 ? [{ dayNo, clock: dayNo - from, value }] : [];
      });
      return { unit, name: `${unit} ${i}`, from, fromClean: cleans.includes(from), cleanedOn, points };
    });
    return withUsualDrift(runs);
  });
}
