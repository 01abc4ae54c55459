/** Posts to the stock ledger by 16 callers on one item, and beside them transactions that write two bare rows by the same driver, with as many callers, on the same server. */
import { randomUUID } from 'node:crypto';
import pg from 'pg';
import { medianOfThree, timeCalls } from './callers.mjs';

export const name = 'ledger';
const CALLERS = 16;
const PER_RUN = 1050;

export async function seed(databaseUrl) {
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  await client.query(`INSERT INTO item (id, code, name, kind) VALUES (gen_random_uuid(), 'SEAL', 'Seal', 'seal')`);
  await client.query(`INSERT INTO place (id, name, kind) VALUES (gen_random_uuid(), 'Store', 'store')`);
  await client.query('CREATE TABLE bare_post (id uuid PRIMARY KEY, at timestamptz NOT NULL)');
  await client.query(
    'CREATE TABLE bare_move (id bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY, post_id uuid NOT NULL REFERENCES bare_post, quantity numeric NOT NULL)',
  );
  const { rows } = await client.query('SELECT item.id AS item, place.id AS place FROM item, place');
  await client.end();
  return rows[0];
}

export async function run(context, print) {
  const { item: itemId, place } = context.seeded;
  const post = (kind, quantity, ends) => ({ id: randomUUID(), kind, at: new Date().toISOString(), note: 'bench', moves: [{ itemId, quantity, ...ends }] });
  const send = (body) => ({ path: '/api/stock/posts', body });
  const pool = new pg.Pool({ connectionString: context.databaseUrl, max: CALLERS });
  try {
    await timeCalls(context, () => send(post('receive', '10', { toPlaceId: place })), 1);
    // Every post draws on the same line of stock: one after the other by its lock.
    const ledger = await medianOfThree(
      () => timeCalls(context, () => send(post('scrap', '1', { fromPlaceId: place })), CALLERS),
      ({ callsPerSecond }) => callsPerSecond,
    );
    const bare = await medianOfThree(
      () => bareRows(pool),
      (perSecond) => perSecond,
    );
    const ratio = Number((ledger.callsPerSecond / bare).toFixed(2));
    print({ bench: 'ledger', what: 'posts on one item', ...ledger, bareTransactionsPerSecond: bare, ratio });
    const { rows } = await pool.query(
      `SELECT (SELECT count(*)::int FROM stock_fault) AS faults, (SELECT count(*)::int FROM stock_post WHERE kind = 'scrap') AS posts, (SELECT on_hand::float FROM stock_balance) AS left`,
    );
    print({ bench: 'ledger', what: 'after it', ...rows[0], expectedPosts: 3 * PER_RUN, expectedLeft: 10 * PER_RUN - 3 * PER_RUN });
  } finally {
    await pool.end();
  }
}

/** Transactions a second. */
async function bareRows(pool) {
  let left = PER_RUN;
  const caller = async () => {
    while (left > 0) {
      left -= 1;
      const client = await pool.connect();
      const id = randomUUID();
      await client.query('BEGIN');
      await client.query('INSERT INTO bare_post (id, at) VALUES ($1, now())', [id]);
      await client.query('INSERT INTO bare_move (post_id, quantity) VALUES ($1, 1)', [id]);
      await client.query('COMMIT');
      client.release();
    }
  };
  const startedAt = performance.now();
  await Promise.all(Array.from({ length: CALLERS }, caller));
  return Math.round(PER_RUN / ((performance.now() - startedAt) / 1000));
}
