import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, expect, test } from '@jest/globals';
import { claimFolder } from './owner-file.js';
import { beginOf } from './process-look.js';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'skidkeep-owner-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const mark = (owner: unknown): void => writeFileSync(join(folder, 'owner.json'), typeof owner === 'string' ? owner : JSON.stringify(owner));

test('a folder that a living process holds is refused, and its number is named', () => {
  mark({ pid: process.ppid, begin: beginOf(process.ppid) });
  expect(() => claimFolder(folder)).toThrow(`(process ${process.ppid})`);
});

test.each([
  ['of a process that is gone', () => ({ pid: 2 ** 22 + 1, begin: '1' })],
  ['of a process whose number another has now', () => ({ pid: process.ppid, begin: `${beginOf(process.ppid)}0` })],
  ['that was cut off while it was written', () => '{"pid": 12'],
])('a mark %s is taken over', (_, owner) => {
  mark(owner());
  claimFolder(folder);
  expect(JSON.parse(readFileSync(join(folder, 'owner.json'), 'utf8'))).toEqual({ pid: process.pid, begin: beginOf(process.pid) });
});

test('a folder that was released may be taken', () => {
  claimFolder(folder).release();
  expect(() => claimFolder(folder)).not.toThrow();
});
