import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Test } from '@nestjs/testing';
import type { FoundationOptions } from '../../src/app/app-foundation.module.js';
import { AppModule } from '../../src/app.module.js';
import { makeAdapter, setUpApp } from '../../src/app.setup.js';
import { makeTestDatabase } from './test-database.js';

/** The service as it runs, on a database of its own; conclusions are made again only when a test asks for it. */
export async function startTestApp(pagesFolder?: string, about: Partial<Omit<FoundationOptions, 'databaseUrl'>> = {}): Promise<NestFastifyApplication> {
  const databaseUrl = await makeTestDatabase();
  const module = await Test.createTestingModule({ imports: [AppModule.with({ databaseUrl, backgroundWork: false, ...about })] }).compile();
  const app = module.createNestApplication<NestFastifyApplication>(makeAdapter(), { logger: ['error'] });
  await setUpApp(app, { pagesFolder, openapiFile: undefined });
  await app.listen(0, '127.0.0.1');
  return app;
}
