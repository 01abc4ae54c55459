import { existsSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import type { INestApplicationContext } from '@nestjs/common';
import type { Contents } from '../database/contents.js';
import type { Settings } from '../settings.js';

/** What seed/load-demo.ts offers. It is found when it is needed: the service does not depend on its demo. */
interface DemoLoader {
  readonly loadDemo: (into: { readonly app: INestApplicationContext; readonly say: (line: string) => void }) => Promise<void>;
}

const COMPILED_LOADER = join(import.meta.dirname, '../../../seed/load-demo.js');

/** An empty database of its own gets the demo unless it is switched off; a given database only where it is asked for. */
export function wantsDemo({ demo, databaseUrl }: Pick<Settings, 'demo' | 'databaseUrl'>, { empty }: Pick<Contents, 'empty'>): boolean {
  return empty && (demo === 'on' || (demo === undefined && databaseUrl === undefined));
}

/** While this file lies in the folder of an own database, its demo has not been loaded whole. */
const unfinishedMark = (folder: string): string => join(folder, 'demo-unfinished');

export function wasDemoCutOff(ownFolder: string): boolean {
  return existsSync(unfinishedMark(ownFolder));
}

export function forgetDemo(ownFolder: string): void {
  rmSync(unfinishedMark(ownFolder), { force: true });
}

export async function loadDemo(app: INestApplicationContext, ownFolder: string | undefined, say: (line: string) => void): Promise<void> {
  if (ownFolder !== undefined) writeFileSync(unfinishedMark(ownFolder), '');
  const { loadDemo: load } = (await import(pathToFileURL(COMPILED_LOADER).href)) as DemoLoader;
  await load({ app, say });
  if (ownFolder !== undefined) forgetDemo(ownFolder);
}
