import type { SignalCode } from '../../shared/signals.js';
import type { Samples } from './samples.js';

/** The values of one signal in order of time. */
export interface TimedColumn {
  readonly code: SignalCode;
  readonly at: Float64Array;
  readonly values: Float64Array;
}

/**
 * Signals that were each read by themselves as one table by time. Signals of one log share their times; those of several do not, and have `null` where they
 * were not read.
 *
 * @example joinColumns([{ code: 'tmp', at: [1, 2], values: [50, 51] }, { code: 'temperature', at: [2], values: [12] }]).columns.temperature // => [null, 12]
 */
export function joinColumns(columns: readonly TimedColumn[]): Samples {
  const [first] = columns;
  const shared = first !== undefined && columns.every(({ at }) => isSame(at, first.at));
  const at = shared ? first.at : allTimes(columns);
  return { at, columns: Object.fromEntries(columns.map((column) => [column.code, shared ? Array.from(column.values) : spread(column, at)])) };
}

function isSame(a: Float64Array, b: Float64Array): boolean {
  return a === b || (a.length === b.length && a.every((time, i) => time === b[i]));
}

function allTimes(columns: readonly TimedColumn[]): Float64Array {
  const all = new Float64Array(columns.reduce((sum, { at }) => sum + at.length, 0));
  let to = 0;
  for (const { at } of columns) {
    all.set(at, to);
    to += at.length;
  }
  all.sort();
  return all.filter((time, i) => i === 0 || time !== all[i - 1]);
}

function spread({ at, values }: TimedColumn, times: Float64Array): (number | null)[] {
  let next = 0;
  return Array.from(times, (time) => {
    if (at[next] !== time) return null;
    next += 1;
    return values[next - 1] ?? null;
  });
}
