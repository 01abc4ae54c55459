import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';

const root = join(import.meta.dirname, '../..');

test('every class of the described API has a name of its own: two of one name would be described as one', () => {
  const names = globSync(['src/**/*.dto.ts'], { cwd: root }).flatMap((file) =>
    [...readFileSync(join(root, file), 'utf8').matchAll(/^export class (\w+)/gm)].map(([, name]) => name),
  );
  expect(names.length).toBeGreaterThan(100);
  expect(names.filter((name, at) => names.indexOf(name) !== at)).toEqual([]);
});
