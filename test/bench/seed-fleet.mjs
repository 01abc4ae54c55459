import { randomBytes } from 'node:crypto';
import { NestFactory } from '@nestjs/core';
import pg from 'pg';
import { loadScenario } from '../../dist/seed/load-demo.js';
import { buildScenario } from '../../dist/seed/scenario.js';
import { Database } from '../../dist/src/app/index.js';
import { AppModule } from '../../dist/src/app.module.js';
import { makeAdapter, setUpApp } from '../../dist/src/app.setup.js';
import { hashOfToken } from '../../dist/src/people/tokens.js';

/** A quarter of a year with few cycles a day: what is measured here is the size of the fleet, not of its record. */
const THIN = { years: 0.25, cyclesPerDay: 4 };

/** A large fleet in an empty database: that of the demo, or what `seed` writes; with a manager who is signed in, and a way to count the queries of a request. */
export async function seedFleet(databaseUrl, skids, seed) {
  const app = await NestFactory.create(AppModule.with({ databaseUrl, backgroundWork: false }), makeAdapter(), { logger: ['error'] });
  await setUpApp(app, { pagesFolder: undefined, openapiFile: undefined });
  await app.listen(0, '127.0.0.1');
  const seeded = seed ? await seed(databaseUrl, skids) : await loadScenario(app, buildScenario({ until: new Date(), skids, ...THIN }), () => {});
  const { prisma } = app.get(Database);
  const token = randomBytes(16).toString('hex');
  const person = { name: 'Bench', email: 'bench@example.org', role: 'manager' };
  await prisma.session.create({ data: { tokenHash: hashOfToken(token), expiresAt: new Date('2100-01-01'), person: { create: person } } });
  const cookie = `skidkeep_session=${token}`;
  const address = await app.getUrl();
  const countQueries = async (path) => {
    const original = pg.Client.prototype.query;
    let queries = 0;
    pg.Client.prototype.query = function query(...args) {
      queries += 1;
      return Reflect.apply(original, this, args);
    };
    const answer = await fetch(`${address}${path}`, { headers: { cookie } });
    await answer.text();
    pg.Client.prototype.query = original;
    return queries;
  };
  return { cookie, countQueries, seeded, close: () => app.close() };
}
