import type { SignalCode } from '../../shared/signals.js';

/** Samples of a skid by column, in order of time: row `i` of every column was read at `at[i]`, ms since 1970. `null`: no value in that row. */
export interface Samples {
  readonly at: Float64Array | readonly number[];
  readonly columns: Partial<Readonly<Record<SignalCode, readonly (number | null)[]>>>;
}

/**
 * The value of a signal in a row; a signal that was not sampled has none.
 *
 * @example valueAt({ at: [0, 60000], columns: { mode: [1, 2] } }, 'mode', 1) // => 2
 * @example valueAt({ at: [0, 60000], columns: { mode: [1, 2] } }, 'temperature', 1) // => null
 */
export function valueAt(samples: Samples, code: SignalCode, row: number): number | null {
  return samples.columns[code]?.[row] ?? null;
}

/**
 * Some rows of a table of samples as a table of their own.
 *
 * @example takeRows({ at: [0, 60000], columns: { mode: [1, 2] } }, [1]) // => { "at": [60000], "columns": { "mode": [2] } }
 */
export function takeRows({ at, columns }: Samples, rows: readonly number[]): Samples {
  return {
    at: rows.map((row) => at[row] ?? Number.NaN),
    columns: Object.fromEntries(Object.entries(columns).map(([code, values]) => [code, rows.map((row) => values[row] ?? null)])),
  };
}

/**
 * Two tables of samples, one after the other; a signal that only one of them has is `null` in the rows of the other.
 *
 * @example joinSamples({ at: [0], columns: { mode: [1] } }, { at: [60000], columns: { mode: [2] } }) // => { "at": [0, 60000], "columns": { "mode": [1, 2] } }
 */
export function joinSamples(first: Samples, second: Samples): Samples {
  const codes = Object.keys({ ...first.columns, ...second.columns }) as SignalCode[];
  const column = ({ at, columns }: Samples, code: SignalCode) => columns[code] ?? Array.from(at, () => null);
  return {
    at: [...first.at, ...second.at],
    columns: Object.fromEntries(codes.map((code) => [code, [...column(first, code), ...column(second, code)]])),
  };
}
