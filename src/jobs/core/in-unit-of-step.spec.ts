import { describe, expect, test } from '@jest/globals';
import fc from 'fast-check';
import { inUnitOfStep } from './in-unit-of-step.js';

describe('a value that was read', () => {
  test('comes back from another unit of the same kind', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 1e5, noNaN: true }), (value) => {
        expect(inUnitOfStep(inUnitOfStep(value, 'bar', '[psi]') ?? 0, '[psi]', 'bar')).toBeCloseTo(value, 5);
      }),
      { numRuns: 50 },
    );
  });

  test('stays as it is where one of the two names no unit', () => {
    expect(inUnitOfStep(1.5, null, 'bar')).toBe(1.5);
    expect(inUnitOfStep(1.5, 'A', null)).toBe(1.5);
    expect(inUnitOfStep(1.5, 'A', 'A')).toBe(1.5);
  });

  test('is none in a unit that is not known', () => expect(inUnitOfStep(1.5, 'A', 'bar')).toBeNull());
});
