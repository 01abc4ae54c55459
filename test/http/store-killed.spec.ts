import { randomUUID } from 'node:crypto';
import { afterAll, expect, test } from '@jest/globals';
import pg from 'pg';
import { hashOfToken } from '../../src/people/tokens.js';
import { RunningService } from '../support/running-service.js';
import { makeTestDatabase } from '../support/test-database.js';

const CALLERS = 16;
const SERVED_BEFORE = 150;
const SENT_AT_MOST = 2000;
const TOKEN = 'storekeeper-of-this-test';
const AT = new Date().toISOString();

const services: RunningService[] = [];
afterAll(async () => {
  for (const service of services) await service.signal('SIGTERM');
});
async function start(databaseUrl: string) {
  const service = new RunningService({ DATABASE_URL: databaseUrl });
  services.push(service);
  return { service, address: await service.ready() };
}

/** A storekeeper who is signed in, an item, and two places, between which it is carried to and fro. */
async function stocked(client: pg.Client) {
  const [item, store, van, person] = [randomUUID(), randomUUID(), randomUUID(), randomUUID()];
  await client.query(`INSERT INTO person (id, name, email, role) VALUES ($1, 'Ada', 'ada@example.org', 'storekeeper')`, [person]);
  await client.query(`INSERT INTO session (token_hash, person_id, expires_at) VALUES ($1, $2, '2100-01-01')`, [hashOfToken(TOKEN), person]);
  await client.query(`INSERT INTO item (id, code, name, kind) VALUES ($1, 'SEAL', 'Seal', 'seal')`, [item]);
  await client.query(`INSERT INTO place (id, name, kind) VALUES ($1, 'Store', 'store'), ($2, 'Cabinet', 'store')`, [store, van]);
  return { item, store, van };
}

test('a service that is killed at work loses no post that it confirmed, and keeps none in part: what is sent again is posted once', async () => {
  const databaseUrl = await makeTestDatabase();
  const first = await start(databaseUrl);
  const client = new pg.Client({ connectionString: databaseUrl });
  await client.connect();
  try {
    const { item, store, van } = await stocked(client);
    const move = (kind: string, quantity: string, fromPlaceId: string | null, toPlaceId: string) => ({
      id: randomUUID(),
      kind,
      at: AT,
      note: '',
      moves: [{ itemId: item, quantity, fromPlaceId, toPlaceId }],
    });
    type Post = ReturnType<typeof move>;
    const send = async (address: string, post: Post) => {
      const headers = { cookie: `skidkeep_session=${TOKEN}`, origin: address, 'content-type': 'application/json' };
      return (await fetch(`${address}/api/stock/posts`, { method: 'POST', headers, body: JSON.stringify(post) })).status;
    };
    for (const place of [store, van]) expect(await send(first.address, move('receive', '100', null, place))).toBe(201);

    const sent: Post[] = [];
    const confirmed = new Set<string>();
    const refused: number[] = [];
    const killing: Promise<unknown>[] = [];
    const carry = async () => {
      while (killing.length === 0 && sent.length < SENT_AT_MOST) {
        const there = sent.length % 2 === 0;
        const post = move('transfer', '1', there ? store : van, there ? van : store);
        sent.push(post);
        const status = await send(first.address, post).catch(() => 0);
        if (status === 201) confirmed.add(post.id);
        else if (status !== 0) refused.push(status);
        if (confirmed.size >= SERVED_BEFORE && killing.length === 0) killing.push(first.service.signal('SIGKILL'));
      }
    };
    await Promise.all(Array.from({ length: CALLERS }, carry));
    await Promise.all(killing);
    const onRecord = async () => (await client.query<{ id: string }>(`SELECT id FROM stock_post WHERE kind = 'transfer'`)).rows.map(({ id }) => id);
    const kept = new Set(await onRecord());
    expect([...confirmed].filter((id) => !kept.has(id))).toEqual([]);
    expect((await client.query('SELECT * FROM stock_fault')).rows).toEqual([]);
    const cutOff = sent.filter(({ id }) => !confirmed.has(id)).length - refused.length;
    expect(cutOff).toBeGreaterThan(0);

    const second = await start(databaseUrl);
    const again = await Promise.all(sent.map((post) => send(second.address, post)));
    expect(new Set(again)).toEqual(new Set([201]));
    expect((await onRecord()).sort()).toEqual(sent.map(({ id }) => id).sort());
    const there = sent.filter(({ moves: [only] }) => only?.toPlaceId === van).length;
    const more = there - (sent.length - there);
    const { rows } = await client.query<{ place_id: string; on_hand: number }>('SELECT place_id, on_hand::float AS on_hand FROM stock_balance');
    expect(Object.fromEntries(rows.map(({ place_id, on_hand }) => [place_id, on_hand]))).toEqual({ [store]: 100 - more, [van]: 100 + more });
    expect((await client.query('SELECT * FROM stock_fault')).rows).toEqual([]);
  } finally {
    await client.end();
  }
}, 60_000);
