import { describe, expect, test } from '@jest/globals';
import { median, quantileSorted } from 'd3-array';
import fc from 'fast-check';
import { Gathered } from './gathered.js';

const gatheredIn = (store: Gathered, values: readonly (number | null)[]) => {
  for (const value of values) store.add(value);
  return store;
};

describe('the values of a signal of a day', () => {
  test('give the median and the percentiles that a sort gives, day after day from the same store', () => {
    const store = new Gathered();
    fc.assert(
      fc.property(fc.array(fc.oneof(fc.double(), fc.integer({ min: 0, max: 5 }), fc.constant(null)), { maxLength: 300 }), (values) => {
        const sorted = values.flatMap((value) => (value === null || Number.isNaN(value) ? [] : [value])).sort((a, b) => a - b);
        const [low, high] = [sorted[(sorted.length - 1) >> 1] ?? Number.NaN, sorted[sorted.length >> 1] ?? Number.NaN];
        const said = gatheredIn(store, values).takeMedian();
        if (sorted.length === 0) expect(said).toBeNull();
        // `+ 0`: zero has no sign here
        else expect((said ?? Number.NaN) + 0).toBe((sorted.length % 2 === 1 ? high : (low + high) / 2) + 0);
        const spread = gatheredIn(store, values).takeSpread();
        expect(spread?.n ?? 0).toBe(sorted.length);
        if (spread !== null) expect([spread.low + 0, spread.high + 0]).toEqual([0.1, 0.9].map((p) => (quantileSorted(sorted, p) ?? Number.NaN) + 0));
        expect(store.takeMedian()).toBeNull();
      }),
      { numRuns: 60 },
    );
  });

  test('pass over what was not read or is no number', () => {
    expect(gatheredIn(new Gathered(), [3, null, 1, Number.NaN, 2]).takeMedian()).toBe(2);
    expect(gatheredIn(new Gathered(), [1, 2]).takeMedian()).toBe(median([1, 2]));
    expect(gatheredIn(new Gathered(), [null]).takeSpread()).toBeNull();
  });
});
