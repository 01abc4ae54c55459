import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';

const root = join(import.meta.dirname, '../..');
const TOLERANCE = 1e-6;

interface Example {
  readonly file: string;
  readonly expression: string;
  readonly expected: string;
}

/** The lines `@example expression // => value` of the pure code. */
const examples: Example[] = globSync(['src/**/core/**/*.ts', 'src/shared/**/*.ts'], { cwd: root, ignore: '**/*.spec.ts' })
  .sort()
  .flatMap((file) =>
    [...readFileSync(join(root, file), 'utf8').matchAll(/@example\s+(.*)$/gm)].map((match) => {
      const [expression = '', expected = ''] = (match[1] ?? '').replace(/\s*\*\/$/, '').split(' // => ');
      return { file, expression, expected };
    }),
  );

/** Equal, numbers to a millionth of their size. */
function matches(actual: unknown, expected: unknown): boolean {
  if (typeof actual === 'number' && typeof expected === 'number') {
    return Math.abs(actual - expected) <= (expected === 0 ? 1e-12 : TOLERANCE * Math.abs(expected));
  }
  if (typeof actual !== 'object' || typeof expected !== 'object' || actual === null || expected === null) return actual === expected;
  if (Array.isArray(actual) !== Array.isArray(expected)) return false;
  const keys = Object.keys(actual);
  return (
    keys.length === Object.keys(expected).length &&
    keys.every((key) => key in expected && matches((actual as Record<string, unknown>)[key], (expected as Record<string, unknown>)[key]))
  );
}

describe('the examples in the comments of the pure code hold', () => {
  test('there are many', () => {
    expect(examples.length).toBeGreaterThan(50);
  });

  test.each(examples)('$file: $expression', async ({ file, expression, expected }) => {
    const exported = (await import(join(root, file))) as Record<string, unknown>;
    // oxlint-disable-next-line typescript/no-implied-eval -- the text is our own source
    const evaluate = new Function(...Object.keys(exported), `return (${expression});`) as (...values: unknown[]) => unknown;
    const actual: unknown = JSON.parse(JSON.stringify(evaluate(...Object.values(exported)) ?? null));
    const wanted: unknown = JSON.parse(expected);
    if (!matches(actual, wanted)) expect(actual).toEqual(wanted);
  });
});

test('the comparison sees a difference of more than a millionth, and in any place', () => {
  expect(matches(1.000002, 1)).toBe(false);
  expect(matches(1.0000005, 1)).toBe(true);
  expect(matches(1e-9, 0)).toBe(false);
  expect(matches({ a: [1, { b: 2 }] }, { a: [1, { b: 2.1 }] })).toBe(false);
  expect(matches({ a: 1 }, { a: 1, b: null })).toBe(false);
  expect(matches([1], { 0: 1 })).toBe(false);
});
