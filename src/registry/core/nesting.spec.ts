import { describe, expect, test } from '@jest/globals';
import { nestingProblem } from './nesting.js';

const seal = { id: null, skidId: 's', hasChildren: false };
const pump = { id: 'pump', skidId: 's', parentId: null, ended: false };

describe('a position within another', () => {
  test('is a seal of a pump', () => expect(nestingProblem(seal, pump)).toBeNull());
  test('must be on the same skid', () => {
    expect(nestingProblem(seal, { ...pump, skidId: 'other' })).toContain('no such position');
    expect(nestingProblem(seal, undefined)).toContain('no such position');
  });
  test('is not within itself', () => expect(nestingProblem({ ...seal, id: 'pump' }, pump)).toContain('itself'));
  test('is not in one that has ended', () => expect(nestingProblem(seal, { ...pump, ended: true })).toContain('ended'));
  test('goes no deeper than once', () => {
    expect(nestingProblem(seal, { ...pump, parentId: 'valve' })).toContain('only once');
    expect(nestingProblem({ ...seal, hasChildren: true }, pump)).toContain('only once');
  });
});
