import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, test } from '@jest/globals';
import { globSync } from 'tinyglobby';
import { SETTING_NAMES } from '../../src/app/settings.js';

const root = join(import.meta.dirname, '../..');
const read = (file: string): string => readFileSync(join(root, file), 'utf8');

test('every setting stands in .env.example, and nothing else', () => {
  const tools = globSync('src/tools/*.mjs', { cwd: root }).flatMap((file) => read(file).match(/(?<=process\.env\.)[A-Z_]+/g) ?? []);
  const known = new Set([...SETTING_NAMES, ...tools]);
  const listed = read('.env.example').match(/^(?:# ?)?[A-Z_]+(?==)/gm) ?? [];
  expect(listed.map((name) => name.replace(/^# ?/, '')).sort()).toEqual([...known].sort());
});

test('the service reads its environment in one place', () => {
  const readers = globSync('src/**/*.{ts,tsx}', { cwd: root, ignore: ['**/*.spec.ts', 'src/generated/**'] }).filter((file) =>
    /\bprocess\.env\b/.test(read(file)),
  );
  // main.ts hands it to settings.ts; launch.ts hands it on to PostgreSQL, cleaned.
  expect(readers.sort()).toEqual(['src/app/database/embedded/launch.ts', 'src/main.ts']);
});
