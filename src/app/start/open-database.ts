import { recreateDatabase } from '../database/contents.js';
import { startPostgres } from '../database/embedded/start-postgres.js';
import { migrate } from '../database/migrate.js';
import { checkServer } from '../database/server-check.js';
import type { Settings } from '../settings.js';
import { forgetDemo, wasDemoCutOff } from './demo.js';
import type { Shutdown } from './shutdown.js';
import { StartProblem } from './start-problem.js';

export interface OpenDatabase {
  readonly url: string;
  /** Where the service's own PostgreSQL keeps its data; undefined for a given database */
  readonly ownFolder: string | undefined;
  /** The reason of an error that the service met, as far as the database can tell it better */
  readonly explain: (error: Error) => Promise<Error>;
}

/** The database to work on, reachable and migrated: a PostgreSQL of the service's own where none is given. */
export async function openDatabase(
  { databaseUrl, dataDir }: Settings,
  migrationsFolder: string,
  shutdown: Shutdown,
  say: (line: string) => void,
): Promise<OpenDatabase> {
  const database =
    databaseUrl === undefined ? await openOwn(dataDir, shutdown, say) : { url: databaseUrl, ownFolder: undefined, explain: async (error: Error) => error };
  await checkServer(database.url);
  const applied = await migrate(database.url, migrationsFolder);
  if (applied.length > 0) say(`Migrations applied: ${applied.length}`);
  return database;
}

async function openOwn(dataDir: string, shutdown: Shutdown, say: (line: string) => void): Promise<OpenDatabase> {
  const postgres = await startPostgres({ folder: dataDir });
  shutdown.add(postgres.stop);
  void postgres.lost.then(async () => {
    const reason = await postgres.explain(new StartProblem('The database of the service ended: start the service again.'));
    await shutdown.fail(reason.message);
  });
  say(`Own PostgreSQL, data in ${postgres.folder}`);
  if (wasDemoCutOff(postgres.folder)) {
    say('Loading the demo was cut off: beginning anew');
    await recreateDatabase(postgres.url());
    forgetDemo(postgres.folder);
  }
  return { url: postgres.url(), ownFolder: postgres.folder, explain: postgres.explain };
}
