import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { joinColumns, type TimedColumn } from './join-columns.js';

const column = (code: TimedColumn['code'], ...rows: [number, number][]): TimedColumn => ({
  code,
  at: Float64Array.from(rows, ([time]) => time),
  values: Float64Array.from(rows, ([, value]) => value),
});

describe('columns joined by time', () => {
  test('of one log have the times of that log', () => {
    const joined = joinColumns([column('tmp', [1, 50], [2, 51]), column('temperature', [1, 12], [2, 13])]);
    expect(Array.from(joined.at)).toEqual([1, 2]);
    expect(joined.columns).toEqual({ tmp: [50, 51], temperature: [12, 13] });
  });

  test('of two logs have all times, and nothing where a signal was not read', () => {
    const joined = joinColumns([column('tmp', [1, 50], [4, 51]), column('temperature', [2, 12], [4, 13])]);
    expect(Array.from(joined.at)).toEqual([1, 2, 4]);
    expect(joined.columns).toEqual({ tmp: [50, null, 51], temperature: [null, 12, 13] });
  });

  test('none are an empty table', () => expect(Array.from(joinColumns([]).at)).toEqual([]));

  test('lose and invent no value', () => {
    const rows = fc.uniqueArray(fc.tuple(fc.nat(20), fc.nat(9)), { selector: ([time]) => time }).map((each) => each.sort(([a], [b]) => a - b));
    fc.assert(
      fc.property(rows, rows, (a, b) => {
        const joined = joinColumns([column('tmp', ...a), column('temperature', ...b)]);
        const read = (values: readonly (number | null)[] = []) => values.flatMap((value, i) => (value === null ? [] : [[joined.at[i], value]]));
        expect(read(joined.columns.tmp)).toEqual(a);
        expect(read(joined.columns.temperature)).toEqual(b);
      }),
      { numRuns: 50 },
    );
  });
});
