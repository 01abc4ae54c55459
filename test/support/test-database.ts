import pg from 'pg';

interface TestServer {
  readonly adminUrl: string;
  /** Name of the migrated database that each test file gets a copy of */
  readonly template: string;
}

/** The server of this jest project: the one that the service brings along, or the one of TEST_DATABASE_URL. */
function testServer(): TestServer {
  const { TEST_SERVERS: servers } = process.env;
  if (servers === undefined) throw new Error('Run the tests with "npm test -- <path>": it starts the database');
  const { testServer: name = 'own' } = globalThis as { testServer?: string };
  const server = (JSON.parse(servers) as Record<string, TestServer>)[name];
  if (server === undefined) throw new Error(`No test server "${name}"`);
  return server;
}

/** A copy of the migrated template for this jest worker, made anew for each test file. */
export async function makeTestDatabase(): Promise<string> {
  const { adminUrl, template } = testServer();
  const name = `${template}_${process.env.JEST_WORKER_ID ?? '1'}`;
  const admin = new pg.Client({ connectionString: adminUrl });
  await admin.connect();
  await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
  await admin.query(`CREATE DATABASE ${name} TEMPLATE ${template} STRATEGY file_copy`);
  await admin.end();
  const url = new URL(adminUrl);
  url.pathname = `/${name}`;
  return url.href;
}
