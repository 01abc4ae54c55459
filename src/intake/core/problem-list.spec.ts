import { describe, expect, test } from '@jest/globals';
import { ProblemList } from './problem-list.js';

describe('the list of problems', () => {
  test('counts every problem and lists the first of each message by line', () => {
    const problems = new ProblemList();
    for (let line = 2; line < 1002; line++) problems.add('refused', line, 'tmp', 'x', 'is not a number');
    problems.add('refused', 500, 'time', '2026-13-01', 'has no such month');
    const { totals, listed } = problems.report();
    expect(totals).toEqual([
      { kind: 'refused', message: 'is not a number', count: 1000 },
      { kind: 'refused', message: 'has no such month', count: 1 },
    ]);
    expect(listed).toHaveLength(51);
    expect(listed.at(-1)).toEqual({ kind: 'refused', line: 500, column: 'time', value: '2026-13-01', message: 'has no such month' });
    expect(problems.count('refused')).toBe(1001);
    expect(problems.count('doubtful')).toBe(0);
  });

  test('stays small whatever comes', () => {
    const problems = new ProblemList();
    for (let line = 0; line < 5000; line++) problems.add('refused', line, null, 'y'.repeat(10_000), `message ${line}`);
    const { totals, listed } = problems.report();
    expect(totals.length).toBeLessThanOrEqual(101);
    expect(totals.reduce((sum, { count }) => sum + count, 0)).toBe(5000);
    expect(JSON.stringify(listed).length).toBeLessThan(50_000);
  });

  test('keeps text that a database can store', () => {
    const problems = new ProblemList();
    problems.add('refused', 1, null, 'a\0b\uD800', 'is odd');
    expect(problems.report().listed[0]?.value).toBe('a\uFFFDb\uFFFD');
  });
});
