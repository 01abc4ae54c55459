import { describe, expect, test } from '@jest/globals';
import { metSince } from './limit-met.js';

const days = (...values: number[]) => values.map((value, i) => ({ day: `2025-01-0${i + 1}`, value }));
const atLimit = (value: number) => value >= 10;

describe('a limit that is met', () => {
  test('one wrong value does not meet it, nor end it', () => {
    expect(metSince(days(4, 5, 5, 14), atLimit)).toBeNull();
    expect(metSince(days(4, 11, 12, 3, 12, 13), atLimit)).toBe('2025-01-03');
  });

  test('is not met any more after values below it', () => {
    expect(metSince(days(11, 12, 13, 4, 4, 4), atLimit)).toBeNull();
  });

  test('a first value counts, and no value does not', () => {
    expect(metSince(days(12), atLimit)).toBe('2025-01-01');
    expect(metSince([], atLimit)).toBeNull();
  });
});
