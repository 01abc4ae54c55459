import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { firstPassage } from './first-passage.js';

describe('first passage of a drifting random walk', () => {
  // scipy 1.17 invgauss and R statmod, computed apart; the two agree to 5e-15.
  test.each([
    [10, 1, 1, 5, 0.0174534],
    [10, 1, 1, 8, 0.2874457],
    [10, 1, 1, 12, 0.7700914],
    [10, 1, 1, 20, 0.9921061],
    [0.6, 0.002, 0.01, 100, 4.815002e-5],
    [0.6, 0.002, 0.01, 300, 0.5564509],
    [0.6, 0.002, 0.01, 600, 0.9955025],
    [1, 0.05, 0.5, 5, 0.4477545],
    [1, 0.05, 0.5, 80, 0.9454196],
  ])('distance %d, drift %d, spread %d, by %d: %d', (distance, drift, spread, clock, probability) => {
    expect(firstPassage(clock, { distance, drift, spread })).toBeCloseTo(probability, 7);
  });

  test('is a step without spread, certain where the limit is met, impossible before anything ran', () => {
    expect(firstPassage(4.9, { distance: 10, drift: 2, spread: 0 })).toBe(0);
    expect(firstPassage(5, { distance: 10, drift: 2, spread: 0 })).toBe(1);
    expect(firstPassage(3, { distance: 0, drift: 1, spread: 1 })).toBe(1);
    expect(firstPassage(0, { distance: 10, drift: 2, spread: 1 })).toBe(0);
  });

  test('never falls with the clock or the drift, and does not overflow', () => {
    const clock = fc.double({ min: 0.01, max: 1000, noNaN: true });
    const walk = fc.record({
      distance: fc.double({ min: 0.01, max: 100, noNaN: true }),
      drift: fc.double({ min: -1, max: 10, noNaN: true }),
      spread: fc.double({ min: 0.001, max: 5, noNaN: true }),
    });
    fc.assert(
      fc.property(walk, clock, clock, (one, a, b) => {
        const early = firstPassage(Math.min(a, b), one);
        expect(early).toBeGreaterThanOrEqual(0);
        expect(firstPassage(Math.max(a, b), one)).toBeGreaterThanOrEqual(early - 1e-12);
        expect(firstPassage(Math.min(a, b), { ...one, drift: one.drift + 0.5 })).toBeGreaterThanOrEqual(early - 1e-12);
      }),
    );
  });
});
