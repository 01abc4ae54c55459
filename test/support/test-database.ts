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
  await dropDatabase(admin, name);
  await admin.query(`CREATE DATABASE ${name} TEMPLATE ${template} STRATEGY file_copy`);
  await admin.end();
  const url = new URL(adminUrl);
  url.pathname = `/${name}`;
  return url.href;
}

const INSUFFICIENT_PRIVILEGE = '42501';

/** The server itself may be at work in the old copy (autovacuum), which nobody but a superuser may end: it is soon done. */
async function dropDatabase(admin: pg.Client, name: string): Promise<void> {
  for (let tries = 1; ; tries += 1) {
    try {
      await admin.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
      return;
    } catch (error) {
      if ((error as { code?: string }).code !== INSUFFICIENT_PRIVILEGE || tries === 40) throw error;
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
  }
}
