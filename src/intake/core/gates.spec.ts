import { describe, expect, test } from '@jest/globals';
import { DEFAULT_SAMPLING_GATES, gatesNotResolvable, medianIntervalSeconds } from './gates.js';

describe('gates that sampling cannot resolve', () => {
  test.each([
    [1, []],
    [60, []],
    [61, ['end of cycle']],
    [90, ['end of cycle']],
    [100, ['start of cycle', 'end of cycle']],
    [121, ['settling time', 'start of cycle', 'end of cycle']],
    [600, ['settling time', 'start of cycle', 'end of cycle']],
    [null, ['settling time', 'start of cycle', 'end of cycle']],
  ])('with a sample every %p s are %p', (seconds, expected) => {
    expect(gatesNotResolvable(DEFAULT_SAMPLING_GATES, seconds)).toEqual(expected);
  });

  test('do not name a gate that is switched off', () => {
    expect(gatesNotResolvable({ ...DEFAULT_SAMPLING_GATES, settleSeconds: 0 }, 600)).toEqual(['start of cycle', 'end of cycle']);
  });
});

describe('the usual interval between samples', () => {
  test('is the median, so that a gap does not count', () => {
    expect(medianIntervalSeconds(Float64Array.of(0, 10_000, 20_000, 30_000, 9e9))).toBe(10);
  });

  test('is not known from a single sample', () => {
    expect(medianIntervalSeconds([0])).toBeNull();
    expect(medianIntervalSeconds([])).toBeNull();
  });
});
