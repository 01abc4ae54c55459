import { describe, expect, test } from '@jest/globals';
import { isTakenFrom } from './fitting-times.js';

const day = (n: number) => new Date(Date.UTC(2026, 0, n));
const earlier = { fittedAt: day(1), removedAt: day(10) };

describe('a position', () => {
  test('is free from the moment that its part was removed', () => {
    expect(isTakenFrom(day(10), [earlier])).toBe(false);
    expect(isTakenFrom(day(9), [earlier])).toBe(true);
  });

  test('is taken by a part that is still there, and by one that came later', () => {
    expect(isTakenFrom(day(20), [{ fittedAt: day(1), removedAt: null }])).toBe(true);
    expect(isTakenFrom(day(12), [earlier, { fittedAt: day(15), removedAt: day(18) }])).toBe(true);
  });

  test('that never held a part is free', () => expect(isTakenFrom(day(1), [])).toBe(false));
});
