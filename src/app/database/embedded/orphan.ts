import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { StartProblem } from '../../start/start-problem.js';
import { commandOf } from './process-look.js';

/** Cut the sessions and write everything; when that takes too long, stop without: the log is replayed at the next start. */
const STOPS: readonly { signal: NodeJS.Signals; waitMs: number }[] = [
  { signal: 'SIGINT', waitMs: 15_000 },
  { signal: 'SIGQUIT', waitMs: 5_000 },
];
const LOOK_EVERY_MS = 50;

/** A service that was killed outright leaves its server running, or a postmaster.pid whose number another program has by now. */
export async function endOrphan(data: string): Promise<void> {
  const pidFile = join(data, 'postmaster.pid');
  if (!existsSync(pidFile)) return;
  const pid = Number(readFileSync(pidFile, 'utf8').split('\n')[0]);
  // The folder tells our server from any other PostgreSQL of the machine.
  const isOurs = () => commandOf(pid)?.includes(` -D ${data} `) ?? false;
  if (!isOurs()) {
    rmSync(pidFile, { force: true });
    return;
  }
  for (const { signal, waitMs } of STOPS) {
    process.kill(pid, signal);
    for (let waited = 0; waited < waitMs; waited += LOOK_EVERY_MS) {
      if (!isOurs()) return;
      await sleep(LOOK_EVERY_MS);
    }
  }
  throw new StartProblem(`A PostgreSQL that an earlier start left behind does not stop (process ${pid}): end it, then start again.`);
}
