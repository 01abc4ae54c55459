import { describe, expect, test } from '@jest/globals';
import { joinSamples, takeRows, valueAt } from './samples.js';

const first = { at: Float64Array.of(0, 60_000), columns: { mode: [1, 2], temperature: [12, null] } };

describe('tables of samples', () => {
  test('have no value for a signal that was not sampled or a row that is not there', () => {
    expect(valueAt(first, 'temperature', 0)).toBe(12);
    expect(valueAt(first, 'temperature', 1)).toBeNull();
    expect(valueAt(first, 'tmp', 0)).toBeNull();
    expect(valueAt(first, 'mode', 2)).toBeNull();
  });

  test('joined, have null where only the other has the signal', () => {
    expect(joinSamples(first, { at: [120_000], columns: { mode: [4], tmp: [40] } })).toEqual({
      at: [0, 60_000, 120_000],
      columns: { mode: [1, 2, 4], temperature: [12, null, null], tmp: [null, null, 40] },
    });
  });

  test('give some of their rows as a table', () => {
    expect(takeRows(first, [1])).toEqual({ at: [60_000], columns: { mode: [2], temperature: [null] } });
    expect(takeRows(first, [])).toEqual({ at: [], columns: { mode: [], temperature: [] } });
  });
});
