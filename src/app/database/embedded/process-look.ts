import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';

const HAS_PROC = existsSync('/proc/self/stat');
/** States of processes that have ended while nobody took note of it, as happens in containers. */
const DEAD = new Set(['Z', 'X', 'x']);

/** When the process began, which tells it from another that got its number later; null when there is none. */
export function beginOf(pid: number): string | null {
  if (!isAlive(pid)) return null;
  if (!HAS_PROC) return askPs(pid, 'lstart=') ?? 'unknown';
  // The second field, the program's name, may hold blanks and brackets: the fields are counted from its end.
  const fields =
    readProc(pid, 'stat')
      ?.replace(/^.*\) /s, '')
      .split(' ') ?? [];
  const [state = 'X', begin = null] = [fields[0], fields[19]];
  return DEAD.has(state) ? null : begin;
}

/** The program with its arguments, one string; null when there is no such process. */
export function commandOf(pid: number): string | null {
  return HAS_PROC ? (readProc(pid, 'cmdline')?.replaceAll('\0', ' ') ?? null) : askPs(pid, 'command=');
}

function isAlive(pid: number): boolean {
  try {
    return process.kill(pid, 0);
  } catch (error) {
    return (error as NodeJS.ErrnoException).code === 'EPERM';
  }
}

function readProc(pid: number, file: string): string | null {
  try {
    return readFileSync(`/proc/${pid}/${file}`, 'utf8');
  } catch {
    return null;
  }
}

function askPs(pid: number, field: string): string | null {
  const { status, stdout } = spawnSync('ps', ['-o', field, '-p', String(pid)], { encoding: 'utf8' });
  return status === 0 ? stdout.trim() : null;
}
