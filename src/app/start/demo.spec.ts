import { expect, test } from '@jest/globals';
import { wantsDemo } from './demo.js';

const GIVEN = 'postgresql://db/skidkeep';

test.each([
  // setting, database, empty, wanted
  [undefined, undefined, true, true],
  [undefined, GIVEN, true, false],
  ['on', GIVEN, true, true],
  ['off', undefined, true, false],
  [undefined, undefined, false, false],
  ['on', GIVEN, false, false],
] as const)('DEMO %s, DATABASE_URL %s, empty %s: demo %s', (demo, databaseUrl, empty, wanted) => {
  expect(wantsDemo({ demo, databaseUrl }, { empty })).toBe(wanted);
});
