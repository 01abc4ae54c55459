/** Makes the outlooks of the first skids of a fleet in a process of its own, four at a time, and says how long it took, with how many statements and how much memory. */
import { readFileSync } from 'node:fs';
import { NestFactory } from '@nestjs/core';
import pg from 'pg';
import { AppModule } from '../../dist/src/app.module.js';
import { RecomputeOutlook } from '../../dist/src/outlook/recompute-outlook.js';

const AT_ONCE = 4;
const [databaseUrl, count] = process.argv.slice(2);
const app = await NestFactory.createApplicationContext(AppModule.with({ databaseUrl, backgroundWork: false }), { logger: ['error'] });
const outlooks = app.get(RecomputeOutlook, { strict: false });
const client = new pg.Client({ connectionString: databaseUrl });
await client.connect();
const { rows } = await client.query('SELECT id, no, client_id AS "clientId" FROM skid ORDER BY no LIMIT $1', [count]);
await client.end();

let statements = 0;
const original = pg.Client.prototype.query;
pg.Client.prototype.query = function query(...args) {
  statements += 1;
  return Reflect.apply(original, this, args);
};
// What all skids teach is learned once: it is timed apart from what each skid takes.
const [first, ...rest] = rows;
const learningAt = performance.now();
if (first !== undefined) await outlooks.ofSkid(first);
const startedAt = performance.now();
const [cpuAt, before] = [process.cpuUsage(), statements];
let longest = 0;
let beat = performance.now();
const heart = setInterval(() => {
  const now = performance.now();
  longest = Math.max(longest, now - beat);
  beat = now;
}, 5);
const waiting = rest.values();
await Promise.all(
  Array.from({ length: AT_ONCE }, async () => {
    for (const skid of waiting) await outlooks.ofSkid(skid);
  }),
);
clearInterval(heart);
const seconds = (performance.now() - startedAt) / 1000;
const cpu = process.cpuUsage(cpuAt);
const peak = /VmHWM:\s+(\d+) kB/.exec(readFileSync('/proc/self/status', 'utf8'))?.[1];
console.log(
  JSON.stringify({
    seconds: round(seconds),
    cpuSeconds: round((cpu.user + cpu.system) / 1e6),
    firstSeconds: round((startedAt - learningAt) / 1000),
    statementsPerSkid: round((statements - before) / Math.max(1, rest.length)),
    longestHeldMs: Math.round(longest),
    peakMegabytes: Math.round(Number(peak) / 1024),
  }),
);
await app.close();

function round(value) {
  return Number(value.toPrecision(3));
}
