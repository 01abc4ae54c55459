import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { NestFactory } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { readContents } from './app/database/contents.js';
import { Database } from './app/database/database.js';
import { readSettings, type Settings } from './app/settings.js';
import { loadDemo, wantsDemo } from './app/start/demo.js';
import { type OpenDatabase, openDatabase } from './app/start/open-database.js';
import { checkPort } from './app/start/port-check.js';
import { sentenceFor } from './app/start/sentence-for.js';
import { Shutdown } from './app/start/shutdown.js';
import { giveSignsOfLife } from './app/start/worker-sign.js';
import { AppModule } from './app.module.js';
import { makeAdapter, setUpApp } from './app.setup.js';
import { FirstManager } from './people/index.js';

const project = join(import.meta.dirname, '../..');
const say = (line: string): void => console.log(line);
const LOGGER = { logger: ['error' as const, 'warn' as const], abortOnError: false };

async function start(settings: Settings, shutdown: Shutdown): Promise<void> {
  const database = await openDatabase(settings, join(project, 'prisma/migrations'), shutdown, say);
  await (settings.role === 'worker' ? startWorker(database, shutdown) : startService(settings, database, shutdown));
}

async function startWorker({ url }: OpenDatabase, shutdown: Shutdown): Promise<void> {
  const app = await NestFactory.createApplicationContext(AppModule.with({ databaseUrl: url, backgroundWork: true }), LOGGER);
  shutdown.add(() => app.close());
  giveSignsOfLife(app.get(Database));
  say('The Skidkeep worker is ready');
}

async function startService(settings: Settings, { url, ownFolder }: OpenDatabase, shutdown: Shutdown): Promise<void> {
  await checkPort(settings.port, settings.host);
  const backgroundWork = settings.role === 'both';
  const app = await NestFactory.create<NestFastifyApplication>(
    AppModule.with({ databaseUrl: url, backgroundWork }),
    makeAdapter(settings.trustedProxy),
    LOGGER,
  );
  shutdown.add(() => app.close());
  await setUpApp(app, { pagesFolder: join(project, 'dist/web'), openapiFile: join(project, 'src/web/api/openapi.json') });
  await app.init();
  if (wantsDemo(settings, await readContents(url))) await loadDemo(app, ownFolder, say);
  await listen(app, settings, url);
}

/** People of the demo have passwords that were printed: while they can sign in, only this machine is answered. */
async function listen(app: NestFastifyApplication, settings: Settings, url: string): Promise<void> {
  const { demoPeople } = await readContents(url);
  await app.listen(settings.port, demoPeople ? '127.0.0.1' : settings.host);
  const address = settings.publicUrl ?? (await app.getUrl());
  if (demoPeople) say('It holds the people of the demo, and listens on 127.0.0.1 only. Their passwords were printed when the demo was loaded.');
  const link = await app.get(FirstManager).linkIfNeeded();
  if (link !== null) say(`Nobody has an account yet. This link makes the first one, a manager's, once: ${address}${link}`);
  say(`Skidkeep is ready at ${address} (after ${(performance.now() / 1000).toFixed(1)} s)`);
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
