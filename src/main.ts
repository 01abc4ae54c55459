import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { readSettings, type Settings } from './app/settings.js';
import { openDatabase } from './app/start/open-database.js';
import { sentenceFor } from './app/start/sentence-for.js';
import { Shutdown } from './app/start/shutdown.js';

const project = join(import.meta.dirname, '../..');
const say = (line: string): void => console.log(line);

async function start(settings: Settings, shutdown: Shutdown): Promise<void> {
  const opening = openDatabase(settings, join(project, 'prisma/migrations'), shutdown, say);
  // Two thousand files of the service and its libraries are read while the database starts.
  const [database, { startService, startWorker }] = await Promise.all([opening, import('./service.js')]);
  const starting = settings.role === 'worker' ? startWorker(settings, database, shutdown, say) : startService(settings, database, shutdown, say);
  await starting.catch(async (error: Error) => {
    throw await database.explain(error);
  });
}

function settingsOrLeave(): Settings {
  const file = join(project, '.env');
  if (existsSync(file)) process.loadEnvFile(file);
  try {
    return readSettings(process.env, project);
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exit(1);
  }
}

const settings = settingsOrLeave();
const shutdown = new Shutdown();
try {
  await start(settings, shutdown);
} catch (error) {
  await shutdown.fail(sentenceFor(error, settings) ?? `Skidkeep could not start. ${error instanceof Error ? error.stack : String(error)}`);
}
