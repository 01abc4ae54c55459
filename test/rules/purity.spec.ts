import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';

const root = join(import.meta.dirname, '../..');
const UNSTEADY = /\bDate\.now\(|\bnew Date\(\)|\bMath\.random\(|\bperformance\.now\(|\bprocess\./;

const withoutComments = (source: string): string => source.replace(/\/\*[\s\S]*?\*\/|\/\/.*$/gm, '');

test('pure code asks no clock and draws no lots: both are arguments', () => {
  const files = globSync(['src/**/core/**/*.ts', 'src/shared/**/*.ts'], { cwd: root, ignore: '**/*.spec.ts' });
  expect(files.length).toBeGreaterThan(50);
  expect(files.filter((file) => UNSTEADY.test(withoutComments(readFileSync(join(root, file), 'utf8'))))).toEqual([]);
});

test.each(['const now = Date.now();', 'const at = new Date();', 'Math.random() > 0.5', 'process.env.TZ'])('`%s` would be seen', (line) => {
  expect(UNSTEADY.test(withoutComments(line))).toBe(true);
});
