import { setTimeout as sleep } from 'node:timers/promises';
import { expect, test } from '@jest/globals';
import { Test, type TestingModule } from '@nestjs/testing';
import pg from 'pg';
import { AppFoundationModule } from '../../src/app/app-foundation.module.js';
import { Queue } from '../../src/app/background/queue.js';
import { Database } from '../../src/app/database/database.js';
import { makeTestDatabase } from '../support/test-database.js';

test('an entry that is just being fetched when the service closes is worked to its end before the sessions close', async () => {
  const url = await makeTestDatabase();
  const service = await Test.createTestingModule({ imports: [AppFoundationModule.with({ databaseUrl: url, backgroundWork: true })] }).compile();
  const queue = service.get(Queue);
  const database = service.get(Database);
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
  await service.init();

  const { closing, closed } = closeOnFetch(database, service);
  await queue.send('slow', {});
  await closing;
  await closed();

  expect(done).toEqual(['slow']);
  expect(await statesOf(url, 'slow')).toEqual(['completed']);
});

/** Begins to close the service between the statement that takes an entry and its answer. */
function closeOnFetch(database: Database, service: TestingModule): { closing: Promise<void>; closed: () => Promise<void> } {
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
      ends ??= service.close();
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
