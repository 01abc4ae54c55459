import { describe, expect, test } from '@jest/globals';
import { plannedForLast } from './planned-for-last.js';

describe('where the latest completion of a fixed task had been due', () => {
  test('is one interval after the plan of the completion before, whatever the overruns', () => {
    expect(plannedForLast([0, 540, 1020], 500)).toBe(1000);
    expect(plannedForLast([100, 640], 500)).toBe(600);
  });

  test('is unknown before the task was done twice', () => {
    expect(plannedForLast([100], 500)).toBeNull();
    expect(plannedForLast([], 500)).toBeNull();
  });
});
