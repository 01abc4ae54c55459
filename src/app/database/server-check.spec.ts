import { describe, expect, test } from '@jest/globals';
import { serverProblem } from './server-check.js';

describe('a database server', () => {
  const facts = (versionNumber: number, version: string, encoding = 'UTF8') => ({ versionNumber, version, encoding });

  test.each([
    [150_000, '15.0'],
    [150_019, '15.19 (Debian 15.19-0+deb12u1)'],
    [180_004, '18.4'],
  ])('of version %i will do', (number, version) => {
    expect(serverProblem(facts(number, version))).toBeNull();
  });

  test.each([
    [140_020, '14.20'],
    [90_624, '9.6.24'],
  ])('of version %i is too old', (number, version) => {
    expect(serverProblem(facts(number, version))).toBe(`The database server is PostgreSQL ${version}, and Skidkeep needs 15 or later.`);
  });

  test('that cannot store every character is refused', () => {
    expect(serverProblem(facts(180_004, '18.4', 'SQL_ASCII'))).toMatch(/SQL_ASCII.*ENCODING 'UTF8'/);
  });
});
