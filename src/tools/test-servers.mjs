/** PostgreSQL servers for the tests, each with a migrated template database. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';
import { root } from './root.mjs';

/** The server that the service brings along, on a folder that is thrown away; answers also with how to stop it. */
export async function startOwnServer() {
  const { startPostgres } = await import('../../dist/src/app/database/embedded/start-postgres.js');
  const folder = mkdtempSync(join(tmpdir(), 'skidkeep-test-'));
  const postgres = await startPostgres({ folder, unsafe: true });
  return {
    adminUrl: postgres.url('postgres'),
    urlOf: postgres.url,
    stop: async () => {
      await postgres.stop();
      for (const made of [folder, postgres.folder]) rmSync(made, { recursive: true, force: true });
    },
  };
}

/** Answers with the template's name, and with what removes it and its copies. */
export async function makeTemplate(adminUrl) {
  const { migrate } = await import('../../dist/src/app/database/migrate.js');
  const template = `skidkeep_test_${process.pid}`;
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  await admin.query(`CREATE DATABASE ${template}`);
  const url = new URL(adminUrl);
  url.pathname = `/${template}`;
  await migrate(url.href, join(root, 'prisma/migrations'));
  return {
    template,
    drop: async () => {
      const { rows } = await admin.query('SELECT datname FROM pg_database WHERE datname LIKE $1', [`${template}%`]);
      for (const { datname } of rows) await admin.query(`DROP DATABASE ${datname} WITH (FORCE)`);
    },
    close: () => admin.end(),
  };
}
