import { describe, expect, test } from '@jest/globals';
import { tankProblem } from './tank-shape.js';

const bare = { diameterM: null, lengthM: null, widthM: null, capacityL: 1000, heelL: 50 };

describe('the measures of a tank', () => {
  test.each([
    ['vertical-cylinder', { diameterM: 1 }, 'diameterM'],
    ['horizontal-cylinder', { diameterM: 1, lengthM: 2 }, 'diameterM'],
    ['rectangular', { lengthM: 2, widthM: 1 }, 'lengthM'],
  ] as const)('of a %s must say what its level is worth', (shape, measures, first) => {
    expect(tankProblem({ ...bare, shape })?.field).toBe(first);
    expect(tankProblem({ ...bare, ...measures, shape })).toBeNull();
  });

  test('of a drum are its capacity', () => expect(tankProblem({ ...bare, shape: 'drum' })).toBeNull());

  test('leave something above the heel', () => {
    expect(tankProblem({ ...bare, shape: 'drum', heelL: 1000 })?.field).toBe('heelL');
    expect(tankProblem({ ...bare, shape: 'drum', heelL: 999 })).toBeNull();
  });
});
