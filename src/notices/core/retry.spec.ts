import { describe, expect, test } from '@jest/globals';
import { differenceInMinutes } from 'date-fns/differenceInMinutes';
import { nextTry, tooOldBefore } from './retry.js';
import { tellingNo } from './told-again.js';

const NOW = new Date('2026-11-25T10:00:00Z');

describe('a message that could not be sent', () => {
  test('is tried again after pauses that grow to an hour', () => {
    expect([1, 2, 3, 4, 5, 40].map((tries) => differenceInMinutes(nextTry(tries, NOW), NOW))).toEqual([1, 5, 15, 60, 60, 60]);
  });

  test('is tried for two days', () => {
    expect(tooOldBefore(NOW).toISOString()).toBe('2026-11-23T10:00:00.000Z');
  });
});

describe('the tellings of a breakdown', () => {
  test('are counted by half hours since it was reported', () => {
    const after = (minutes: number) => tellingNo(NOW, new Date(NOW.getTime() + minutes * 60_000));
    expect([0, 29, 30, 59, 60, 600].map(after)).toEqual([0, 0, 1, 1, 2, 20]);
    expect(after(-5)).toBe(0); // the clock of another machine
  });
});
