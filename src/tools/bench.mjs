/**
 * Figures as JSON lines: `npm run bench`, or `npm run bench -- fleet` for one part. A PostgreSQL of its own with the settings of service (fsync on), a seeded fleet of
 * 1,000 skids (`--skids N` for another), and the service as a process of its own, whose peak resident size is printed at the end.
 */
import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { createServer } from 'node:net';
import { cpus, tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { parseArgs } from 'node:util';
import pg from 'pg';
import { globSync } from 'tinyglobby';
import { build } from './build.mjs';
import { root } from './root.mjs';

const { values, positionals: asked } = parseArgs({ allowPositionals: true, options: { skids: { type: 'string', default: '1000' } } });
const skids = Number(values.skids);
const print = (figures) => console.log(JSON.stringify(figures));

await build();
const { startPostgres } = await import('../../dist/src/app/database/embedded/start-postgres.js');
const { migrate } = await import('../../dist/src/app/database/migrate.js');
const { seedFleet } = await import('../../test/bench/seed-fleet.mjs');
const folder = mkdtempSync(join(tmpdir(), 'skidkeep-bench-'));
const files = globSync('test/bench/*.bench.mjs', { cwd: root }).sort();
const all = await Promise.all(files.map((file) => import(pathToFileURL(join(root, file)).href)));
const parts = all.filter(({ name }) => asked.length === 0 || asked.includes(name));
const postgres = await startPostgres({ folder });
try {
  // Parts that bring a fleet of their own get a database of their own.
  for (const part of parts.filter(({ seed }) => seed !== undefined)) await measure(await newDatabase(`skidkeep_${part.name}`), [part], part.seed);
  const rest = parts.filter(({ seed }) => seed === undefined);
  if (rest.length > 0) await measure(postgres.url('skidkeep'), rest);
} finally {
  await postgres.stop();
  for (const made of [folder, postgres.folder]) rmSync(made, { recursive: true, force: true });
}

async function newDatabase(database) {
  const client = new pg.Client({ connectionString: postgres.url('skidkeep') });
  await client.connect();
  await client.query(`CREATE DATABASE ${database}`);
  await client.end();
  return postgres.url(database);
}

async function measure(databaseUrl, measured, seed) {
  let service;
  try {
    await migrate(databaseUrl, join(root, 'prisma/migrations'));
    const seedingAt = performance.now();
    const seeded = await seedFleet(databaseUrl, skids, seed);
    print({ bench: 'seed', skids, seconds: Math.round((performance.now() - seedingAt) / 1000), cores: cpus().length, node: process.version });
    const port = await freePort();
    const baseUrl = `http://127.0.0.1:${port}`;
    service = spawn(process.execPath, [join(root, 'dist/src/main.js')], {
      env: { ...process.env, DATABASE_URL: databaseUrl, DEMO: 'off', PORT: String(port), HOST: '127.0.0.1' },
      stdio: ['ignore', 'ignore', 'inherit'],
    });
    await answers(`${baseUrl}/api/health`);
    for (const part of measured) await part.run({ baseUrl, databaseUrl, skids, ...seeded }, print);
    const peak = /VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${service.pid}/status`, 'utf8'))?.[1];
    print({ bench: 'memory', peakMegabytes: Math.round(Number(peak) / 1024) });
    await seeded.close();
  } finally {
    if (service !== undefined) {
      service.kill('SIGINT');
      await new Promise((resolve) => service.once('exit', resolve));
    }
  }
}

async function answers(address) {
  for (let tries = 0; tries < 200; tries += 1) {
    const status = await fetch(address).then(
      (answer) => answer.status,
      () => 0,
    );
    if (status !== 0) return;
    await new Promise((resolve) => setTimeout(resolve, 100));
  }
  throw new Error(`${address} does not answer`);
}

function freePort() {
  return new Promise((resolve, reject) => {
    const probe = createServer();
    probe.once('error', reject);
    probe.listen(0, '127.0.0.1', () => {
      const { port } = probe.address();
      probe.close(() => resolve(port));
    });
  });
}
