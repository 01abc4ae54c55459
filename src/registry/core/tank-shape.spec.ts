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

  test('of a table of levels rise, and stay within height and capacity', () => {
    const table = (...levelTable: [number, number][]) =>
      tankProblem({ ...bare, shape: 'table', heightM: 1, levelTable: levelTable.map(([levelM, volumeL]) => ({ levelM, volumeL })) })?.message;
    expect(tankProblem({ ...bare, shape: 'table' })?.field).toBe('levelTable');
    expect(table([0.2, 60], [1, 900])).toBeUndefined();
    expect(table([0.2, 60])).toMatch(/two rows or more/);
    expect(table([0.2, 60], [0.2, 80])).toMatch(/must rise/);
    expect(table([0.2, 60], [0.5, 50])).toMatch(/must rise/);
    expect(table([0.2, 60], [1, 1001])).toMatch(/more than the capacity/);
    expect(table([0.2, 60], [1.2, 900])).toMatch(/beyond the height/);
  });

  test('leave something above the heel', () => {
    expect(tankProblem({ ...bare, shape: 'drum', heelL: 1000 })?.field).toBe('heelL');
    expect(tankProblem({ ...bare, shape: 'drum', heelL: 999 })).toBeNull();
  });
});
