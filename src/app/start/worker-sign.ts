import { utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Database } from '../database/database.js';

const EVERY_MS = 15_000;

/** A worker answers no request: a file whose time is no more than a minute old says that it runs and reaches the database. */
export function giveSignsOfLife(database: Database): void {
  const file = join(tmpdir(), 'skidkeep-worker-alive');
  const sign = async (): Promise<void> => {
    await database.pool.query('SELECT 1');
    writeFileSync(file, '', { flag: 'a' });
    utimesSync(file, new Date(), new Date());
  };
  const signQuietly = (): void => void sign().catch((error: unknown) => console.error('The worker does not reach the database:', error));
  signQuietly();
  setInterval(signQuietly, EVERY_MS).unref();
}
