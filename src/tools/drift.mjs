/** Compares the database that the migrations make with the one that the Prisma schema describes. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { pathToFileURL } from 'node:url';
import pg from 'pg';
import { build } from './build.mjs';
import { root } from './root.mjs';
import { startOwnServer } from './test-servers.mjs';

const require = createRequire(import.meta.url);
const { loadSchemaContext } = require('@prisma/internals');
const { PrismaPg } = require('@prisma/adapter-pg');
const { bindMigrationAwareSqlAdapterFactory } = require('@prisma/driver-adapter-utils');

/** The package loads itself only in bundlers: here its WebAssembly is put together by hand. */
async function loadSchemaEngine() {
  const folder = dirname(require.resolve('@prisma/schema-engine-wasm'));
  const bindings = await import(pathToFileURL(join(folder, 'schema_engine_bg.js')).href);
  const { instance } = await WebAssembly.instantiate(readFileSync(join(folder, 'schema_engine_bg.wasm')), { './schema_engine_bg.js': bindings });
  bindings.__wbg_set_wasm(instance.exports);
  instance.exports.__wbindgen_start();
  return bindings.SchemaEngine;
}

/** The SQL that would make the schema's tables in an empty database. */
async function schemaAsSql(url) {
  const { schemaFiles } = await loadSchemaContext({ schemaPath: { cliProvidedPath: join(root, 'prisma/schema') }, cwd: root, printLoadMessage: false });
  const files = schemaFiles.map(([path, content]) => ({ path, content }));
  const SchemaEngine = await loadSchemaEngine();
  const factory = bindMigrationAwareSqlAdapterFactory(new PrismaPg({ connectionString: url }));
  const engine = await SchemaEngine.new({ datamodels: schemaFiles }, () => {}, factory);
  try {
    const noFilter = { externalTables: [], externalEnums: [] };
    const { stdout } = await engine.diff({
      from: { tag: 'empty' },
      to: { tag: 'schemaDatamodel', files },
      script: true,
      shadowDatabaseUrl: null,
      exitCode: null,
      filters: noFilter,
    });
    return stdout ?? '';
  } finally {
    engine.free?.();
  }
}

/** Columns, keys and indexes of every table but partitions, one line each; without the indexes that the schema language cannot say. */
const CATALOG = `
  WITH tables AS (SELECT c.oid, c.relname FROM pg_class c JOIN pg_namespace n ON n.oid = c.relnamespace
    WHERE n.nspname = 'public' AND c.relkind IN ('r', 'p') AND NOT c.relispartition AND c.relname <> '_prisma_migrations')
  SELECT t.relname || '.' || a.attname || ' ' || format_type(a.atttypid, a.atttypmod) || CASE WHEN a.attnotnull THEN ' not null' ELSE '' END
    || coalesce(' default ' || pg_get_expr(d.adbin, d.adrelid), '') AS line
    FROM tables t JOIN pg_attribute a ON a.attrelid = t.oid AND a.attnum > 0 AND NOT a.attisdropped LEFT JOIN pg_attrdef d ON d.adrelid = t.oid AND d.adnum = a.attnum
  UNION ALL SELECT t.relname || ' constraint ' || k.conname || ' ' || pg_get_constraintdef(k.oid) FROM tables t JOIN pg_constraint k ON k.conrelid = t.oid WHERE k.contype IN ('p', 'f', 'u')
  UNION ALL SELECT t.relname || ' index ' || replace(pg_get_indexdef(i.indexrelid), ' ON ONLY ', ' ON ') FROM tables t JOIN pg_index i ON i.indrelid = t.oid WHERE i.indpred IS NULL AND i.indexprs IS NULL
  ORDER BY 1`;

async function catalogOf(url, statements) {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  if (statements !== undefined) await client.query(statements);
  const { rows } = await client.query(CATALOG);
  await client.end();
  return rows.map((row) => row.line);
}

await build({ pages: false });
const { migrate } = await import('../../dist/src/app/database/migrate.js');
const server = await startOwnServer();
try {
  await catalogOf(server.adminUrl, 'CREATE DATABASE migrated');
  await catalogOf(server.adminUrl, 'CREATE DATABASE described');
  await migrate(server.urlOf('migrated'), join(root, 'prisma/migrations'));
  const described = await catalogOf(server.urlOf('described'), await schemaAsSql(server.urlOf('described')));
  const migrated = await catalogOf(server.urlOf('migrated'));
  const missing = described.filter((line) => !migrated.includes(line)).map((line) => `only in the schema:     ${line}`);
  const extra = migrated.filter((line) => !described.includes(line)).map((line) => `only in the migrations: ${line}`);
  console.log([...missing, ...extra].join('\n') || `no drift in ${described.length} lines of catalog`);
  process.exitCode = missing.length + extra.length > 0 || described.length === 0 ? 1 : 0;
} finally {
  await server.stop();
}
