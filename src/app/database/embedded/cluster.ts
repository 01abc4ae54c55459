import { type SpawnSyncReturns, spawnSync } from 'node:child_process';
import { randomBytes } from 'node:crypto';
import { chownSync, existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { engineProblem } from './engine-problem.js';
import { PLAIN_ENVIRONMENT } from './launch.js';
import type { RunAs } from './run-as.js';

/** The role that owns the service's database: it may make roles and databases, and nothing else that an owner need not. */
export const OWNER = 'skidkeep';
const SUPERUSER = 'postgres';

/** Characters and their order are the same whatever the locale of the machine. */
const ENCODING = ['--encoding=UTF8', '--locale=C', '--locale-provider=builtin', '--builtin-locale=C.UTF-8'];

/** Makes the database cluster in the folder `data` when there is none, and answers with the password of its owner. */
export function ensureCluster(bin: string, data: string, runAs: RunAs | undefined): string {
  if (!existsSync(data)) makeCluster(bin, data, runAs);
  return readFileSync(join(data, 'password'), 'utf8').trim();
}

/** Made under another name and renamed when whole: a first start may be cut off at any moment. */
function makeCluster(bin: string, data: string, runAs: RunAs | undefined): void {
  for (const name of readdirSync(dirname(data))) if (name.includes('.new-')) rmSync(join(dirname(data), name), { recursive: true, force: true });
  const unfinished = `${data}.new-${process.pid}`;
  const passwordFile = `${unfinished}.password`;
  const password = randomBytes(24).toString('base64url');
  try {
    mkdirSync(unfinished, { mode: 0o700 });
    writeFileSync(passwordFile, password, { mode: 0o600 });
    if (runAs !== undefined) for (const path of [unfinished, passwordFile]) chownSync(path, runAs.uid, runAs.gid);
    const run = (program: string, args: string[], input = ''): void => {
      const options = { ...runAs, cwd: unfinished, env: PLAIN_ENVIRONMENT, encoding: 'utf8', input } as const;
      mustSucceed(program, spawnSync(join(bin, program), args, options), data);
    };
    run('initdb', ['-D', unfinished, '-U', SUPERUSER, '--auth=scram-sha-256', `--pwfile=${passwordFile}`, '--no-sync', ...ENCODING]);
    // Without a listening server: each line is one statement.
    run('postgres', ['--single', '-D', unfinished, SUPERUSER], ownerStatements(password).join('\n'));
    renameSync(passwordFile, join(unfinished, 'password'));
    renameSync(unfinished, data);
  } catch (error) {
    for (const path of [unfinished, passwordFile]) rmSync(path, { recursive: true, force: true });
    throw error;
  }
}

function ownerStatements(password: string): string[] {
  return [`CREATE ROLE ${OWNER} LOGIN CREATEROLE CREATEDB PASSWORD '${password}'`, `CREATE DATABASE ${OWNER} OWNER ${OWNER}`];
}

function mustSucceed(program: string, { status, error, stderr }: SpawnSyncReturns<string>, data: string): void {
  // In single-user mode a failed statement is told on stderr only.
  if (status === 0 && !/^.*(ERROR|FATAL|PANIC): /m.test(stderr)) return;
  throw engineProblem(`${program}: ${error?.message ?? stderr}`, data);
}
