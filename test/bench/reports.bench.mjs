/** The report of two years of one skid and of its client, over HTTP, on the record of the demo in a database of its own: the first one, which starts the thread, and the next. */
import { NestFactory } from '@nestjs/core';
import { loadScenario } from '../../dist/seed/load-demo.js';
import { buildScenario } from '../../dist/seed/scenario.js';
import { Database } from '../../dist/src/app/index.js';
import { AppModule } from '../../dist/src/app.module.js';

export const name = 'reports';
const DAY_MS = 86_400_000;
const YEARS = 2;
const CALLS = 20;

/** Brings its own fleet: few skids with a long record. */
export async function seed(databaseUrl) {
  const app = await NestFactory.createApplicationContext(AppModule.with({ databaseUrl, backgroundWork: false }), { logger: ['error'] });
  await loadScenario(app, buildScenario({ until: new Date(), skids: 2, years: YEARS }), () => {});
  const [skid] = await app.get(Database).prisma.skid.findMany({ where: { kind: 'skid' }, orderBy: { no: 'asc' }, take: 1 });
  await app.close();
  return { skidId: skid.id, clientId: skid.clientId };
}

export async function run({ baseUrl, cookie, seeded: { skidId, clientId } }, print) {
  const to = new Date();
  const from = new Date(to.getTime() - (YEARS * 365 - 1) * DAY_MS);
  const period = `from=${from.toISOString().slice(0, 10)}&to=${to.toISOString().slice(0, 10)}`;
  for (const of of [`skids/${skidId}`, `clients/${clientId}`]) {
    const times = [];
    let bytes = 0;
    for (let call = 0; call <= CALLS; call += 1) {
      const startedAt = performance.now();
      const answer = await fetch(`${baseUrl}/api/${of}/report.pdf?${period}`, { headers: { cookie } });
      bytes = (await answer.arrayBuffer()).byteLength;
      if (answer.status !== 200) throw new Error(`${of}: ${answer.status}`);
      times.push(performance.now() - startedAt);
    }
    const [first, ...next] = times.map(Math.round);
    next.sort((a, b) => a - b);
    print({ bench: 'report', of: of.split('/')[0], years: YEARS, firstMs: first, medianMs: next[CALLS / 2], worstMs: next.at(-1), bytes });
  }
}
