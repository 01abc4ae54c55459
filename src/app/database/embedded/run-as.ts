import { spawnSync } from 'node:child_process';
import { StartProblem } from '../../start/start-problem.js';

/** A user that PostgreSQL may run as: it refuses to run as root. */
export interface RunAs {
  readonly uid: number;
  readonly gid: number;
}

/** Undefined: as the present user. */
export function userToRunAs(): RunAs | undefined {
  if (process.getuid?.() !== 0) return undefined;
  for (const name of ['postgres', 'nobody']) {
    const uid = idOf('-u', name);
    const gid = idOf('-g', name);
    if (uid !== null && gid !== null) return { uid, gid };
  }
  throw new StartProblem(
    'PostgreSQL does not run as root, and this machine has neither a user "postgres" nor a user "nobody": start as an ordinary user, or set DATABASE_URL.',
  );
}

function idOf(flag: '-u' | '-g', name: string): number | null {
  const { status, stdout } = spawnSync('id', [flag, name], { encoding: 'utf8' });
  return status === 0 ? Number(stdout.trim()) : null;
}
