import { existsSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { StartProblem } from '../../start/start-problem.js';
import { beginOf } from './process-look.js';

interface Owner {
  readonly pid: number;
  readonly begin: string | null;
}

/**
 * Marks the folder as this process's. Two services on one folder would each stop the server under the other.
 * A mark whose process is gone, or whose number another program has by now, was left by a service that was killed outright.
 */
export function claimFolder(folder: string): { release: () => void } {
  const file = join(folder, 'owner.json');
  const owner = readOwner(file);
  if (owner !== null && owner.begin !== null && beginOf(owner.pid) === owner.begin) {
    throw new StartProblem(`The data folder ${folder} is in use by another Skidkeep (process ${owner.pid}): stop that one, or set DATA_DIR to another folder.`);
  }
  rmSync(file, { force: true });
  writeFileSync(file, JSON.stringify({ pid: process.pid, begin: beginOf(process.pid) } satisfies Owner), { flag: 'wx' });
  return { release: () => rmSync(file, { force: true }) };
}

function readOwner(file: string): Owner | null {
  if (!existsSync(file)) return null;
  try {
    return JSON.parse(readFileSync(file, 'utf8')) as Owner;
  } catch {
    return null; // cut off while it was written
  }
}
