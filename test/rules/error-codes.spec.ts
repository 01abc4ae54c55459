import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';

const root = join(import.meta.dirname, '../..');

const read = (file: string): string => readFileSync(join(root, file), 'utf8');
const pairs = (text: string, pattern: RegExp): string[] => [...text.matchAll(pattern)].map(([, code, status]) => `${code} ${status}`).sort();

/** As every refusal declares itself: `readonly code = 'stage/what';` and its status on the next line. */
const thrown = globSync('src/**/*.ts', { cwd: root, ignore: 'src/generated/**' }).flatMap((file) =>
  pairs(read(file), /^ +readonly code = '([a-z-]+\/[a-z-]+)';\s+readonly status = (\d{3});$/gm),
);
/** Rows of the table in DEVELOPERS.md: | `stage/what` | 409 | when | */
const documented = pairs(read('DEVELOPERS.md'), /^\| `([a-z-]+\/[a-z-]+)` \| (\d{3}) \| .+ \|$/gm);

test('every refusal has its row in the table of DEVELOPERS.md, and every row its refusal', () => {
  expect(thrown.length).toBeGreaterThan(10);
  expect(documented).toEqual([...thrown].sort());
});

test('no code is used twice', () => {
  const codes = thrown.map((pair) => pair.split(' ')[0]);
  expect(codes.filter((code, at) => codes.indexOf(code) !== at)).toEqual([]);
});

test('every class of refusal was read', () => {
  const declared = globSync('src/**/*.ts', { cwd: root, ignore: 'src/generated/**' }).flatMap((file) => read(file).match(/extends DomainError\b/g) ?? []);
  expect(thrown).toHaveLength(declared.length);
});
