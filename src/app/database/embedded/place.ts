import { spawnSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import { chownSync, cpSync, mkdirSync, readdirSync, realpathSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { shippedPrograms } from './programs.js';
import type { RunAs } from './run-as.js';

/** Where PostgreSQL's programs are run from, and where the service keeps its data. */
export interface Place {
  readonly bin: string;
  readonly folder: string;
}

const OUTSIDE = '/var/lib/skidkeep';

/**
 * As root, PostgreSQL runs as another user, who must reach both programs and data. A checkout under a folder that is closed to
 * others (/root) is no such place: then they go to /var/lib/skidkeep, the data into a folder named after the wanted one.
 */
export function findPlace(asked: string, runAs: RunAs | undefined): Place {
  const shipped = shippedPrograms();
  mkdirSync(asked, { recursive: true });
  const wanted = realpathSync(asked); // one folder, one name: by it an orphan is known again
  if (runAs === undefined) return { bin: join(shipped.folder, 'bin'), folder: wanted };
  if (readdirSync(wanted).length === 0) chownSync(wanted, runAs.uid, runAs.gid);
  const programs = canRun(shipped.folder, runAs) ? shipped.folder : copyPrograms(shipped.folder, shipped.version, runAs);
  return { bin: join(programs, 'bin'), folder: canEnter(wanted, runAs) ? wanted : folderOutside(wanted) };
}

function folderOutside(wanted: string): string {
  const folder = join(OUTSIDE, createHash('sha256').update(wanted).digest('hex').slice(0, 12));
  mkdirSync(folder, { recursive: true, mode: 0o755 });
  return folder;
}

/** Copied under another name and renamed when whole: a start may be cut off at any moment. */
function copyPrograms(from: string, version: string, runAs: RunAs): string {
  const programs = join(OUTSIDE, `programs-${version}`);
  if (canRun(programs, runAs)) return programs;
  const unfinished = `${programs}.new-${process.pid}`;
  mkdirSync(OUTSIDE, { recursive: true, mode: 0o755 });
  cpSync(from, unfinished, { recursive: true, verbatimSymlinks: true });
  rmSync(programs, { recursive: true, force: true });
  renameSync(unfinished, programs);
  return programs;
}

function canRun(programs: string, runAs: RunAs): boolean {
  return spawnSync(join(programs, 'bin', 'postgres'), ['--version'], { ...runAs, cwd: '/' }).status === 0;
}

function canEnter(folder: string, runAs: RunAs): boolean {
  return spawnSync('/bin/sh', ['-c', 'cd "$1"', 'sh', folder], { ...runAs, cwd: '/' }).status === 0;
}
