import { join } from 'node:path';
import { NestFactory } from '@nestjs/core';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { readContents } from './app/database/contents.js';
import { Database } from './app/database/database.js';
import type { Settings } from './app/settings.js';
import { loadDemo, wantsDemo } from './app/start/demo.js';
import type { OpenDatabase } from './app/start/open-database.js';
import { checkPort } from './app/start/port-check.js';
import type { Shutdown } from './app/start/shutdown.js';
import { giveSignsOfLife } from './app/start/worker-sign.js';
import { AppModule } from './app.module.js';
import { makeAdapter, setUpApp } from './app.setup.js';
import { FirstManager } from './people/index.js';

const project = join(import.meta.dirname, '../..');
const LOGGER = { logger: ['error' as const, 'warn' as const], abortOnError: false };

type Say = (line: string) => void;

export async function startWorker(settings: Settings, { url }: OpenDatabase, shutdown: Shutdown, say: Say): Promise<void> {
  const app = await NestFactory.createApplicationContext(
    AppModule.with({ databaseUrl: url, backgroundWork: true, publicUrl: settings.publicUrl, mail: settings.mail }),
    LOGGER,
  );
  shutdown.add(() => app.close());
  giveSignsOfLife(app.get(Database));
  say('The Skidkeep worker is ready');
}

export async function startService(settings: Settings, { url, ownFolder }: OpenDatabase, shutdown: Shutdown, say: Say): Promise<void> {
  await checkPort(settings.port, settings.host);
  const { publicUrl, mail, travelTableUrl } = settings;
  const module = AppModule.with({ databaseUrl: url, backgroundWork: settings.role === 'both', publicUrl, mail, travelTableUrl });
  const app = await NestFactory.create<NestFastifyApplication>(module, makeAdapter(settings.trustedProxy), LOGGER);
  shutdown.add(() => app.close());
  await setUpApp(app, { pagesFolder: join(project, 'dist/web'), openapiFile: join(project, 'src/web/api/openapi.json') });
  await app.init();
  const found = await readContents(url);
  const loading = wantsDemo(settings, found);
  if (loading) await loadDemo(app, ownFolder, say);
  const { demoPeople } = loading ? await readContents(url) : found;
  // Their passwords were printed: while they can sign in, only this machine is answered.
  await app.listen(settings.port, demoPeople ? '127.0.0.1' : settings.host);
  const address = publicUrl ?? (await app.getUrl());
  if (demoPeople) say('It holds the people of the demo, and listens on 127.0.0.1 only. Their passwords were printed when the demo was loaded.');
  const link = await app.get(FirstManager).linkIfNeeded();
  if (link !== null) say(`Nobody has an account yet. This link makes the first one, a manager's, once: ${address}${link}`);
  say(`Skidkeep is ready at ${address} (after ${(performance.now() / 1000).toFixed(1)} s)`);
}
