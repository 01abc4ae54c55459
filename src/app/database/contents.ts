import pg from 'pg';

export interface Contents {
  /** Nobody has an account, and nothing was entered */
  readonly empty: boolean;
  /** Whether people of the demo, whose passwords were printed, can sign in */
  readonly demoPeople: boolean;
}

/** What the start needs to know of what a migrated database holds. */
export async function readContents(databaseUrl: string): Promise<Contents> {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    const { rows } = await client.query<Contents>(
      `SELECT NOT (EXISTS (SELECT FROM person) OR EXISTS (SELECT FROM client) OR EXISTS (SELECT FROM item)) AS empty,
        EXISTS (SELECT FROM person WHERE demo AND ended_at IS NULL) AS "demoPeople"`,
    );
    return rows[0] ?? { empty: false, demoPeople: false };
  } finally {
    await client.end();
  }
}

/** Makes the database of the address anew, with nothing in it. For databases that the service made itself. */
export async function recreateDatabase(databaseUrl: string): Promise<void> {
  const url = new URL(databaseUrl);
  const name = pg.escapeIdentifier(decodeURIComponent(url.pathname.slice(1)));
  url.pathname = '/postgres';
  const client = new pg.Client({ connectionString: url.href });
  await client.connect();
  try {
    await client.query(`DROP DATABASE IF EXISTS ${name} WITH (FORCE)`);
    await client.query(`CREATE DATABASE ${name}`);
  } finally {
    await client.end();
  }
}
