import { type ChildProcess, spawn } from 'node:child_process';
import { createServer } from 'node:net';
import { join } from 'node:path';
import { setTimeout as sleep } from 'node:timers/promises';
import { engineProblem } from './engine-problem.js';
import type { RunAs } from './run-as.js';

/** Messages in English, which the code reads, and nothing that would steer PostgreSQL from outside. */
export const PLAIN_ENVIRONMENT: NodeJS.ProcessEnv = {
  ...Object.fromEntries(Object.entries(process.env).filter(([name]) => !/^(PG|LC_|LANG)/.test(name))),
  LC_ALL: 'C',
};

const STOP_WITHIN_MS = 15_000;
const TRIES = 20;
const BETWEEN_TRIES_MS = 250;
/** After a crash the dead server's children may live a moment longer; and a free port may be taken between look and use. */
const PASSING = /pre-existing shared memory|could not bind|could not create any TCP|lock file/;

const SETTINGS = ['listen_addresses=127.0.0.1', 'unix_socket_directories=', 'max_connections=100', 'logging_collector=off'];
const UNSAFE = ['fsync=off', 'synchronous_commit=off', 'full_page_writes=off', 'wal_level=minimal', 'max_wal_senders=0'];

export interface Launch {
  readonly bin: string;
  readonly data: string;
  readonly runAs: RunAs | undefined;
  /** Faster, and loses data when the machine stops: for tests. */
  readonly unsafe: boolean;
}

interface Launched {
  readonly server: ChildProcess;
  readonly port: number;
  /** The end of what the server has written to its log */
  readonly said: () => string;
}

export async function launch(how: Launch): Promise<Launched> {
  for (let tries = 1; ; tries += 1) {
    const launched = await launchOn(await freePort(), how);
    const { pid, exitCode, signalCode } = launched.server;
    if (pid !== undefined && exitCode === null && signalCode === null) return launched;
    if (!PASSING.test(launched.said()) || tries === TRIES) throw engineProblem(launched.said(), how.data);
    await sleep(BETWEEN_TRIES_MS);
  }
}

/** Settles when the server is ready, or has ended. */
async function launchOn(port: number, { bin, data, runAs, unsafe }: Launch): Promise<Launched> {
  const settings = unsafe ? [...SETTINGS, ...UNSAFE] : SETTINGS;
  const args = ['-D', data, '-p', String(port), ...settings.flatMap((setting) => ['-c', setting])];
  // detached: Ctrl-C in the terminal must reach this process only, which stops the server when the service has let go of it.
  const server = spawn(join(bin, 'postgres'), args, { ...runAs, cwd: data, env: PLAIN_ENVIRONMENT, detached: true, stdio: ['ignore', 'ignore', 'pipe'] });
  let log = '';
  await new Promise<void>((resolve) => {
    server.once('error', (error) => {
      log = error.message;
      resolve();
    });
    // 'close' and not 'exit': by then everything that the server said has been read.
    server.once('close', () => resolve());
    server.stderr?.setEncoding('utf8').on('data', (text: string) => {
      log = (log + text).slice(-4000);
      if (log.includes('database system is ready to accept connections')) resolve();
    });
  });
  return { server, port, said: () => log };
}

/**
 * SIGINT asks for the "fast" shutdown: open sessions are cut, everything is written. On a full disk that never ends; SIGQUIT ends it
 * at once, and the next start replays the log.
 */
export async function stopServer(server: ChildProcess): Promise<void> {
  if (server.exitCode !== null || server.signalCode !== null) return;
  const gone = new Promise<'gone'>((resolve) => server.once('exit', () => resolve('gone')));
  server.kill('SIGINT');
  const answer = await Promise.race([gone, sleep(STOP_WITHIN_MS, 'late', { ref: false })]);
  if (answer === 'late') server.kill('SIGQUIT');
  await gone;
}

async function freePort(): Promise<number> {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address() as { port: number };
      probe.close(() => resolve(port));
    });
  });
}
