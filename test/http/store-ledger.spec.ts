import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import fc from 'fast-check';
import { databaseProblem } from '../../src/app/database/database-errors.js';
import { Database } from '../../src/app/index.js';
import { Ledger, type Post, type Posted } from '../../src/store/index.js';
import { readyPost } from '../../src/store/ledger-post.js';
import { PostsTogether } from '../../src/store/posts-together.js';
import { countQueries } from '../support/count-queries.js';
import { ACT, answerOf, asPost, EXAMPLES, type Items, leftOf, newItems } from '../support/posts-in-turn.js';
import { startTestApp } from '../support/test-app.js';

const AT = new Date('2026-11-25T09:00:00Z');
const CALLER = { id: randomUUID(), name: 'Ada' };
let app: NestFastifyApplication;
let database: Database;
let ledger: Ledger;
let store: string;
let van: string;
let items: string[];

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  ledger = app.get(Ledger);
  const { prisma } = database;
  const person = await prisma.person.create({ data: { name: 'Tom', email: 'tom@example.org', role: 'technician' } });
  store = (await prisma.place.create({ data: { name: 'Main store', kind: 'store' } })).id;
  van = (await prisma.place.create({ data: { name: 'Van of Tom', kind: 'van', personId: person.id } })).id;
  items = await Promise.all(
    Array.from({ length: 15 }, (_, n) => prisma.item.create({ data: { code: `I-${n}`, name: `Item ${n}`, kind: 'seal' } }).then(({ id }) => id)),
  );
});
afterAll(() => app?.close());

type Line = [quantity: string, from: string | null, to: string | null, item?: number, lot?: string];
const moves = (lines: Line[]) =>
  lines.map(([quantity, fromPlaceId, toPlaceId, item = 0, lot]) => ({
    itemId: items[item] ?? '',
    lot: lot ?? null,
    partId: null,
    quantity,
    fromPlaceId,
    toPlaceId,
  }));
const post = (kind: Post['kind'], lines: Line[], more: Partial<Post> = {}): Promise<Posted> =>
  database.write((tx) => ledger.post(tx, { id: randomUUID(), kind, at: AT, caller: CALLER, note: '', moves: moves(lines), ...more }));
const onHand = async (placeId: string, item = 0) =>
  (await ledger.balances(database.prisma, { placeIds: [placeId], itemIds: [items[item] ?? ''] })).map(({ lot, onHand: size }) => `${size} ${lot}`);
const faults = () => database.pool.query('SELECT * FROM stock_fault').then(({ rows }) => rows);

describe('the ledger', () => {
  test('holds what came in, went on and was used', async () => {
    expect(await post('receive', [['10', null, store, 0, 'L1']])).toEqual({ kind: 'posted' });
    await post('transfer', [['4.25', store, van]]);
    await post('use', [['0.25', van, null]]);
    expect([await onHand(store), await onHand(van)]).toEqual([['5.75 L1'], ['4 L1']]);
  });

  test('enters a post once, whoever sends it again and at the same time', async () => {
    const again = { id: randomUUID() };
    const answers = await Promise.all(Array.from({ length: 6 }, () => post('receive', [['3', null, store, 1]], again)));
    expect(answers.map(({ kind }) => kind).sort()).toEqual(['known', 'known', 'known', 'known', 'known', 'posted']);
    expect(await post('receive', [['3.000', null, store, 1]], again)).toEqual({ kind: 'known' });
    await expect(post('receive', [['4', null, store, 1]], again)).rejects.toThrow(/another content/);
    expect(await onHand(store, 1)).toEqual(['3 null']);
  });

  test('says what is short, by item and place, and writes nothing', async () => {
    await post('receive', [['2', null, van, 2]]);
    const answer = await post('use', [
      ['1', van, null, 2],
      ['5', van, null, 3],
      ['2', van, null, 2],
    ]);
    expect(answer).toEqual({
      kind: 'short',
      lines: [
        { itemId: items[2], itemCode: 'I-2', placeId: van, placeName: 'Van of Tom', lot: null, onHand: '2', asked: '3', moves: [0, 2] },
        { itemId: items[3], itemCode: 'I-3', placeId: van, placeName: 'Van of Tom', lot: null, onHand: '0', asked: '5', moves: [1] },
      ],
    });
    expect([await onHand(van, 2), await onHand(van, 3)]).toEqual([['2 null'], []]);
  });

  test('enters what was found where the count was wrong, in the same post', async () => {
    const id = randomUUID();
    expect(await post('use', [['3', van, null, 4]], { id, countWasWrong: true })).toEqual({ kind: 'posted' });
    const entered = await database.prisma.stockMove.findMany({ where: { postId: id }, orderBy: { id: 'asc' } });
    expect(entered.map(({ quantity, fromPlaceId, toPlaceId, correction }) => [quantity.toString(), fromPlaceId, toPlaceId, correction])).toEqual([
      ['3', null, van, true],
      ['3', van, null, false],
    ]);
    expect(await onHand(van, 4)).toEqual([]);
  });

  test('takes a post back once, and only while it is there to be taken', async () => {
    const received = randomUUID();
    await post('receive', [['5', null, store, 5, 'B']], { id: received });
    const used = randomUUID();
    await post('use', [['2', store, null, 5]], { id: used, jobId: randomUUID() });
    const back = (postId: string, id = randomUUID()) => database.write((tx) => ledger.reverse(tx, postId, { id, at: AT, caller: CALLER, note: 'mistake' }));
    expect(await back(received)).toMatchObject({ kind: 'short', lines: [{ lot: 'B', onHand: '3', asked: '5' }] });
    const backId = randomUUID();
    expect(await back(used, backId)).toEqual({ kind: 'posted' });
    expect(await back(used, backId)).toEqual({ kind: 'known' });
    expect(await onHand(store, 5)).toEqual(['5 B']);
    await expect(back(used)).rejects.toThrow(/taken back already/);
    await expect(back(backId)).rejects.toThrow(/takes another one back/);
    await expect(back(randomUUID())).rejects.toThrow(/no stock post/);
  });

  test('knows what lay there at any moment', async () => {
    const on = (day: string) => new Date(`2026-${day}T12:00:00Z`);
    await post('receive', [['8', null, store, 6]], { at: on('03-01') });
    await post('use', [['3', store, null, 6]], { at: on('05-01') });
    const at = async (day: string) => (await ledger.balances(database.prisma, { itemIds: [items[6] ?? ''], at: on(day) })).map(({ onHand: size }) => size);
    expect([await at('02-28'), await at('03-01'), await at('04-30'), await at('05-01')]).toEqual([[], ['8'], ['8'], ['5']]);
  });

  test.each<[string, Post['kind'], Line[], RegExp]>([
    ['no moves', 'receive', [], /needs a move/],
    ['a quantity of zero', 'receive', [['0', null, 'store']], /need a change/],
    ['a transfer that goes nowhere', 'transfer', [['1', 'store', null]], /need a change/],
    ['a place that is none', 'receive', [['1', null, '0192f0c1-2345-7678-9abc-def012345678']], /need a change/],
  ])('refuses %s', async (_, kind, lines, message) => {
    const placed = lines.map<Line>(([quantity, from, to]) => [quantity, from === 'store' ? store : from, to === 'store' ? store : to]);
    await expect(post(kind, placed)).rejects.toThrow(message);
  });

  test('takes as many statements for a hundred moves as for one', async () => {
    const lines = (count: number) => Array.from({ length: count }, (_, n) => ['1', null, store, 7 + (n % 5)] as Line);
    const [one, hundred] = [await countQueries(() => post('receive', lines(1))), await countQueries(() => post('receive', lines(100)))];
    expect(hundred).toBe(one);
    expect(one).toBeLessThanOrEqual(10);
  });
});

test('under load nothing is oversold, nobody waits for ever, and the sums hold', async () => {
  const shared = [8, 9, 10, 11];
  const placed = (n: number): Line[] => {
    // Each post takes the items in another order: without an order of locks they would wait for one another.
    const order = shared.map((_, at) => shared[(at + n) % shared.length] ?? 8);
    if (n % 4 === 3) return order.map((item) => ['3', store, van, item]);
    return order.map((item) => ['2', n % 2 === 0 ? store : van, null, item]);
  };
  const start = new Map(await Promise.all(shared.map(async (item) => [item, Number((await onHand(store, item))[0]?.split(' ')[0] ?? 0)] as const)));
  await post(
    'receive',
    shared.map((item) => ['30', null, store, item] as Line),
  );
  const answers = await Promise.all(Array.from({ length: 40 }, (_, n) => post(n % 4 === 3 ? 'transfer' : 'use', placed(n)).then(({ kind }) => ({ kind, n }))));
  const done = answers.filter(({ kind }) => kind === 'posted');
  expect(done.length).toBeGreaterThan(10);
  expect(answers.filter(({ kind }) => kind === 'short').length).toBe(40 - done.length);
  const used = done.filter(({ n }) => n % 4 !== 3).length * 2;
  for (const item of shared) {
    const sizes = await Promise.all([store, van].map(async (place) => (await onHand(place, item)).map((line) => Number(line.split(' ')[0]))));
    expect(sizes.flat().every((size) => size >= 0)).toBe(true);
    expect(sizes.flat().reduce((sum, size) => sum + size, 0)).toBe((start.get(item) ?? 0) + 30 - used);
  }
  expect(await faults()).toEqual([]);
});

test('of two changes with several posts that wait for each other, one is made and the other may be sent again', async () => {
  await post('receive', [
    ['10', null, store, 0],
    ['10', null, store, 1],
  ]);
  let begun = 0;
  const both = (first: number, second: number) =>
    database.write(async (tx) => {
      const use = (item: number) =>
        ledger.post(tx, { id: randomUUID(), kind: 'use', at: AT, caller: CALLER, note: '', moves: moves([['1', store, null, item]]) });
      await use(first);
      begun += 1;
      for (let waited = 0; begun < 2 && waited < 200; waited += 1) await new Promise((resolve) => setTimeout(resolve, 10));
      return use(second);
    });
  const answers = await Promise.allSettled([both(0, 1), both(1, 0)]);
  expect(answers.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected']);
  const [refused] = answers.filter((answer) => answer.status === 'rejected');
  expect(databaseProblem(refused?.reason)).toMatchObject({ status: 409, message: expect.stringContaining('Send it again') });
  expect(await faults()).toEqual([]);
});

describe('posts of many hands at once', () => {
  const scrap = (quantity: string, item: number, more: Partial<Post> = {}) =>
    app
      .get(PostsTogether)
      .post({ id: randomUUID(), kind: 'scrap', at: AT, caller: CALLER, note: 'worn', moves: moves([[quantity, store, null, item]]), ...more });

  test('are written together: as many as there is stock for, and each once', async () => {
    await post('receive', [['10', null, store, 12]]);
    const twice = Array.from({ length: 4 }, () => ({ id: randomUUID() }));
    const answers: Promise<PromiseSettledResult<Posted>[]>[] = [];
    const statements = await countQueries(() => {
      answers.push(Promise.allSettled([...twice, ...twice, ...Array.from({ length: 22 }, () => ({}))].map((more) => scrap('1', 12, more))));
      return Promise.all(answers);
    });
    const kinds = (await Promise.all(answers)).flat().map((answer) => (answer.status === 'fulfilled' ? answer.value.kind : String(answer.reason)));
    expect(Object.fromEntries(['posted', 'known', 'short'].map((kind) => [kind, kinds.filter((each) => each === kind).length]))).toEqual({
      posted: 10,
      known: 4,
      short: 16,
    });
    expect(statements).toBeLessThanOrEqual(6);
    expect(await onHand(store, 12)).toEqual([]);
    expect(await database.prisma.stockMove.count({ where: { itemId: items[12] ?? '', toPlaceId: null } })).toBe(10);
    await expect(scrap('2', 12, twice[0])).rejects.toThrow(/another content/);
  });

  test('wait for stock that other work holds, and hold up nobody else', async () => {
    await post('receive', [
      ['5', null, store, 13],
      ['5', null, store, 14],
    ]);
    const done: string[] = [];
    const busy = await database.write(async (tx) => {
      await ledger.post(tx, { id: randomUUID(), kind: 'use', at: AT, caller: CALLER, note: '', moves: moves([['4', store, null, 13]]) });
      const held = Promise.all(['first', 'second'].map((name) => scrap('1', 13).then(({ kind }) => done.push(`${name} ${kind}`))));
      expect(await scrap('1', 14)).toEqual({ kind: 'posted' });
      expect(done).toEqual([]);
      return { held };
    });
    await busy.held;
    expect(done.sort()).toEqual(['first posted', 'second short']);
    expect(await faults()).toEqual([]);
  });

  test('leave what they would have left one after the other', () =>
    fc.assert(
      fc.asyncProperty(fc.array(ACT, { minLength: 4, maxLength: 12 }), async (acts) => {
        const [together, apart] = [await newItems(database), await newItems(database)];
        const posts = (of: Items) =>
          acts.map((act, at) => ({ id: of.ids[act.again ? at - 1 : at] ?? of.ids[at] ?? '', caller: CALLER, ...asPost(act, of, [store, van]) }));
        const inOne = await database.write((tx) =>
          ledger.postAll(
            tx,
            posts(together).map((each) => readyPost(each)),
            { waits: false },
          ),
        );
        const inTurn: PromiseSettledResult<unknown>[] = [];
        for (const each of posts(apart)) inTurn.push(...(await Promise.allSettled([database.write((tx) => ledger.post(tx, each))])));
        expect(together.plain(inOne.map(answerOf))).toBe(apart.plain(inTurn.map(answerOf)));
        expect(together.plain(await leftOf(database, together))).toBe(apart.plain(await leftOf(database, apart)));
        expect(await faults()).toEqual([]);
      }),
      { numRuns: 10, examples: EXAMPLES },
    ));
});

test('the check of the ledger sees what the ledger would never enter', async () => {
  const id = randomUUID();
  await database.pool.query(`INSERT INTO stock_post (id, kind, at, by_id, by, request_hash) VALUES ($1, 'use', now(), $1, 'X', '')`, [id]);
  expect(await faults()).toMatchObject([{ fault: 'post without moves', post_id: id }]);
  await database.pool.query(`INSERT INTO stock_move (post_id, item_id, quantity, from_place_id) VALUES ($1, $2, 1000, $3)`, [id, items[0], store]);
  expect(await faults()).toMatchObject([
    { fault: 'below zero', post_id: id, place_id: store },
    { fault: 'moves without their balance', place_id: store },
    { fault: 'balance without its moves', place_id: store },
  ]);
  await expect(database.pool.query(`INSERT INTO stock_move (post_id, item_id, quantity) VALUES ($1, $2, 1)`, [id, items[0]])).rejects.toThrow(
    /stock_move_places/,
  );
});
