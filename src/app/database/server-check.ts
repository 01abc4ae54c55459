import pg from 'pg';
import { StartProblem } from '../start/start-problem.js';

/** As in server_version_num: 150004 is 15.4. */
const OLDEST_SUPPORTED = 150_000;
const CONNECT_WITHIN_MS = 10_000;

/** Fails where the database cannot be reached, or where Skidkeep would not work on it. */
export async function checkServer(databaseUrl: string): Promise<void> {
  const client = new pg.Client({ connectionString: databaseUrl, connectionTimeoutMillis: CONNECT_WITHIN_MS });
  try {
    await client.connect();
    const { rows } = await client.query<ServerFacts>(
      `SELECT current_setting('server_version_num')::int AS "versionNumber", current_setting('server_version') AS version, current_setting('server_encoding') AS encoding`,
    );
    const problem = rows[0] === undefined ? null : serverProblem(rows[0]);
    if (problem !== null) throw new StartProblem(problem);
  } finally {
    await client.end();
  }
}

interface ServerFacts {
  readonly versionNumber: number;
  readonly version: string;
  readonly encoding: string;
}

/** Why Skidkeep does not work on such a server; null when it does. */
export function serverProblem({ versionNumber, version, encoding }: ServerFacts): string | null {
  if (versionNumber < OLDEST_SUPPORTED) return `The database server is PostgreSQL ${version}, and Skidkeep needs 15 or later.`;
  if (encoding !== 'UTF8') return `The database stores text as ${encoding}, and Skidkeep needs UTF8: create it with ENCODING 'UTF8'.`;
  return null;
}
