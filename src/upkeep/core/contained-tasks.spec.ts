import { describe, expect, test } from '@jest/globals';
import { allContained, containsFault } from './contained-tasks.js';

const rules = [
  { task: 'overhaul', contains: ['service', 'alignment'] },
  { task: 'service', contains: ['grease'] },
  { task: 'grease', contains: [] },
];

describe('what a service contains', () => {
  test('goes two levels down, each task once', () => {
    expect(allContained('overhaul', rules)).toEqual(['service', 'alignment', 'grease']);
    expect(allContained('service', rules)).toEqual(['grease']);
    expect(allContained('grease', rules)).toEqual([]);
    expect(allContained('overhaul', [...rules, { task: 'grease', contains: ['overhaul', 'wipe'] }])).toEqual(['service', 'alignment', 'grease']);
  });

  test('is refused as a ring or when it goes deeper', () => {
    expect(containsFault('overhaul', rules)).toBeNull();
    expect(containsFault('a', [{ task: 'a', contains: ['a'] }])).toEqual({ kind: 'ring', path: ['a', 'a'] });
    expect(containsFault('overhaul', [...rules, { task: 'grease', contains: ['overhaul'] }])).toEqual({
      kind: 'ring',
      path: ['overhaul', 'service', 'grease', 'overhaul'],
    });
    expect(containsFault('overhaul', [...rules, { task: 'grease', contains: ['wipe'] }])).toEqual({
      kind: 'too deep',
      path: ['overhaul', 'service', 'grease', 'wipe'],
    });
  });
});
