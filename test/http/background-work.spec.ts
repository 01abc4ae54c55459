import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from '@jest/globals';
import pg from 'pg';
import { BackgroundWork } from '../../src/app/background/background-work.js';
import { Queue } from '../../src/app/background/queue.js';
import { Database } from '../../src/app/database/database.js';
import { makeTestDatabase } from '../support/test-database.js';

test('an entry that is just being fetched when the service closes is worked to its end before the sessions close', async () => {
  const url = await makeTestDatabase();
  const database = new Database(url);
  const queue = new Queue(database, new BackgroundWork(true));
  const done: string[] = [];
  queue.add({
    name: 'slow',
    pollingSeconds: 0.5,
    work: async () => {
      await sleep(50);
      await database.pool.query('SELECT 1');
      done.push('slow');
    },
  });
  await queue.onApplicationBootstrap();

  const { closing, closed } = closeOnFetch(database, queue);
  await queue.send('slow', {});
  await closing;
  await closed();

  expect(done).toEqual(['slow']);
  expect(await statesOf(url, 'slow')).toEqual(['completed']);
});

/** Begins to close the queue, and then the sessions, between the statement that takes an entry and its answer. */
function closeOnFetch(database: Database, queue: Queue): { closing: Promise<void>; closed: () => Promise<void> } {
  let ends: Promise<void> | undefined;
  let begun = () => {};
  const closing = new Promise<void>((resolve) => {
    begun = resolve;
  });
  const query = database.pool.query.bind(database.pool) as (text: string, values?: unknown[]) => Promise<pg.QueryResult>;
  Object.assign(database.pool, {
    query: async (text: string, values?: unknown[]) => {
      const answer = await query(text, values);
      if (!text.includes('SKIP LOCKED') || values?.[0] !== 'slow' || answer.rows.length === 0) return answer;
      ends ??= queue.onModuleDestroy().then(() => database.onModuleDestroy());
      begun();
      await sleep(300);
      return answer;
    },
  });
  return { closing, closed: async () => ends };
}

async function statesOf(url: string, name: string): Promise<string[]> {
  const client = new pg.Client({ connectionString: url });
  await client.connect();
  const { rows } = await client.query<{ state: string }>('SELECT state FROM pgboss.job WHERE name = $1', [name]);
  await client.end();
  return rows.map(({ state }) => state);
}
