import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { RecomputeReorder } from '../../src/store/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

const AT = '2026-11-24T10:00:00Z';
let app: NestFastifyApplication;
let now = '2026-11-25T09:00:00Z';
let manager: Api;
let storekeeper: Api;
let ada: { api: Api; id: string };
let skid: SmallSkid;
let main: Made;
let north: Made;
let van: Made;
let supplier: Made;
let other: Made;

interface Line {
  readonly id: string;
  readonly placeName: string;
  readonly action: string;
  readonly quantity: string;
  readonly [field: string]: unknown;
}

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date(now);
  [manager, storekeeper, ada] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper'), await signInByName(app, 'Ada')];
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  main = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  north = await make(storekeeper, '/api/places', { name: 'North store', kind: 'store' });
  van = await make(manager, '/api/places', { name: 'Van of Ada', kind: 'van', personId: ada.id });
  supplier = await make(storekeeper, '/api/suppliers', { name: 'Brook Seals', currency: 'EUR', leadDays: 10 });
  other = await make(storekeeper, '/api/suppliers', { name: 'Ash Supplies', currency: 'EUR', leadDays: 20 });
});
afterAll(() => app?.close());

let items = 0;
const newItem = async (offer: object | null = {}, about: object = {}): Promise<Made> => {
  items += 1;
  const item = await make(storekeeper, '/api/items', { code: `PART-${items}`, name: 'Part', kind: 'seal', ...about });
  if (offer !== null) await make(storekeeper, '/api/offers', { itemId: item.id, supplierId: supplier.id, purchaseUnit: 'C62', price: '12', ...offer });
  return item;
};
const post = (kind: string, itemId: string, quantity: string, ends: object, at = AT) =>
  storekeeper.post('/api/stock/posts', { id: randomUUID(), kind, at, note: 'x', moves: [{ itemId, quantity, ...ends }] }).expect(201);
const receive = (item: Made, quantity: string, place = main) => post('receive', item.id, quantity, { toPlaceId: place.id });
const dueFor = async (item: Made, quantity: number, bestOn: string): Promise<string> => {
  const task = `Change ${randomUUID()}`;
  const parts = { create: [{ itemId: item.id, quantity }] };
  const versions = { create: { no: 1, createdBy: 'test', usualMinutes: 30, steps: [], parts } };
  const sheet = await app.get(Database).prisma.taskSheet.create({ data: { task, kind: 'service', versions } });
  return makeDue(app, skid, task, { taskSheetId: sheet.id, bestOn, latestOn: '2027-03-01' });
};
const recompute = () => app.get(RecomputeReorder).all();
const list = async (query = ''): Promise<Line[]> => (await storekeeper.get(`/api/reorder?limit=200&${query}`).expect(200)).body.items;
const linesOf = async ({ id }: Made, query = 'show=all'): Promise<Line[]> => (await list(query)).filter(({ itemId }) => itemId === id);
const lineOf = async (item: Made, query?: string): Promise<Line> => {
  const [line] = await linesOf(item, query);
  if (line === undefined) throw new Error(`There is no line of ${item.id}`);
  return line;
};
const decide = (line: Line, what: string, body: object = {}) => storekeeper.post(`/api/reorder/lines/${line.id}/${what}`, body);

describe('what is ordered together', () => {
  test('is what is due, what it pays to take along and what reaches the supplier’s minimum, and says what is missing even so', async () => {
    const maker = await make(storekeeper, '/api/suppliers', { name: 'Cedar Valves', currency: 'EUR', leadDays: 10, minimumOrder: '150' });
    const from = { supplierId: maker.id };
    const [urgent, soon, next, late] = [await newItem(from), await newItem(from), await newItem(from), await newItem(from)];
    await dueFor(urgent, 2, '2026-12-01');
    // Cheap to keep, so that it pays to take it along; of the others no price was ever paid.
    await post('receive', soon.id, '1', { toPlaceId: main.id, unitCost: '2' });
    await dueFor(soon, 1, '2026-12-20');
    for (const [item, day] of [[next, '2026-12-30'] as const, [late, '2027-04-20'] as const]) {
      await receive(item, '1');
      await dueFor(item, 1, day);
    }
    await recompute();
    const cedar = async () => {
      const { items: all } = (await storekeeper.get(`/api/reorder/suppliers?placeId=${main.id}`).expect(200)).body;
      return all.find(({ supplierId }: Line) => supplierId === maker.id);
    };
    const told = await cedar();
    expect(told).toMatchObject({ supplierName: 'Cedar Valves', placeName: 'Main store', currency: 'EUR', minimumOrder: '150', withoutPrice: 0 });
    expect(told.due.map(({ itemId }: Line) => itemId)).toEqual([urgent.id]);
    expect(told.withIt.map(({ itemId }: Line) => itemId)).toEqual([soon.id]);
    expect(told.toMinimum.map(({ itemId }: Line) => itemId)).toEqual([next.id]);
    expect(Number(told.short)).toBeCloseTo(150 - Number(told.valueOfAll));
    await decide(await lineOf(urgent), 'accept').expect(200);
    const made = await storekeeper.post('/api/reorder/orders', { supplierId: maker.id, takeAlong: true }).set('idempotency-key', randomUUID()).expect(201);
    expect(made.body).toMatchObject({ orders: [{ supplierName: 'Cedar Valves', lines: 3 }], leftOut: [] });
    const { lines } = (await storekeeper.get(`/api/orders/${made.body.orders[0].id}`).expect(200)).body;
    const why = (item: Made) => lines.find(({ itemId }: Line) => itemId === item.id).reason;
    expect([why(soon), why(next)]).toEqual(['ordered with what is due from the supplier', 'taken along to reach the supplier’s minimum order']);
    expect(await lineOf(soon)).toMatchObject({ action: 'nothing', alongWith: null });
    expect(await cedar()).toBeUndefined();
  });
});

describe('a line', () => {
  test('says what drives it: how much, from whom, by which day, for which skid, and what waiting does', async () => {
    const part = await newItem({ pack: '2' });
    await receive(part, '1');
    await dueFor(part, 4, '2026-12-02');
    await recompute();
    const line = await lineOf(part, 'show=to do');
    expect(line).toMatchObject({
      placeName: 'Main store',
      action: 'buy',
      onHand: '1',
      position: '1',
      orderBy: '2026-11-25',
      neededBy: '2026-12-02',
      supplies: ['Van of Ada'],
      need: { p90: 4, ofPlans: expect.any(Number) },
      purchase: { supplierName: 'Brook Seals', currency: 'EUR', unit: 'C62' },
      now: { enough: expect.any(Number) },
      decision: null,
    });
    expect(Number(line.quantity)).toBeGreaterThanOrEqual(4);
    expect(Number(line.quantity) % 2).toBe(0);
    const [first] = line.reasons as { kind: string; skidName: string; siteName: string; day: string }[];
    expect(first).toMatchObject({ kind: 'due', skidName: 'Alder 1', siteName: 'Alder site', day: '2026-12-02' });
    const {
      now: at,
      oneMore,
      oneLess,
      ifItWaits,
    } = line as unknown as Record<'now' | 'oneMore' | 'oneLess', { enough: number }> & { ifItWaits: { text: string } };
    expect(oneLess.enough).toBeLessThanOrEqual(at.enough);
    expect(at.enough).toBeLessThanOrEqual(oneMore.enough);
    expect(ifItWaits.text).toContain('2 Dec 2026');
  });

  test('counts what is reserved for its work once', async () => {
    const part = await newItem();
    await receive(part, '6');
    const dueId = await dueFor(part, 4, '2026-11-30');
    await recompute();
    const before = await lineOf(part);
    await make(manager, '/api/visits', { siteId: skid.siteId, onDay: '2026-11-30', startTime: '08:00', personIds: [ada.id], dueIds: [dueId] }).then(({ id }) =>
      manager.post(`/api/visits/${id}/promise`, {}).expect(200),
    );
    await recompute();
    const after = await lineOf(part);
    expect(before).toMatchObject({ reserved: '0', position: '6' });
    expect(after).toMatchObject({ reserved: '4', position: '2', need: { ofPlans: 0 } });
    expect((after as unknown as { now: { enough: number } }).now.enough).toBeCloseTo((before as unknown as { now: { enough: number } }).now.enough, 1);
  });

  test('is learnt from use, not from transfers', async () => {
    const [used, moved] = [await newItem(), await newItem()];
    for (const item of [used, moved]) await post('receive', item.id, '40', { toPlaceId: main.id }, '2025-10-10T08:00:00Z');
    const site = await make(storekeeper, '/api/places', { name: `Shed ${randomUUID()}`, kind: 'site', siteId: skid.siteId });
    for (const month of ['02', '03', '04', '05', '06', '07', '08', '09', '10']) {
      const at = `2026-${month}-15T08:00:00Z`;
      for (const item of [used, moved]) await post('transfer', item.id, '3', { fromPlaceId: main.id, toPlaceId: site.id }, at);
      await post('consume', used.id, '3', { fromPlaceId: site.id }, at);
    }
    await recompute();
    const atMain = async (item: Made) => (await linesOf(item)).find(({ placeName }) => placeName === 'Main store');
    const [busy, idle] = [await atMain(used), await atMain(moved)];
    expect((busy as unknown as { need: { ofTheRest: number } }).need.ofTheRest).toBeGreaterThan(0.3);
    expect(busy).toMatchObject({ onHand: '13', supplies: expect.arrayContaining([site.name]), pace: { kind: 'moving' } });
    expect((idle as unknown as { need: { ofTheRest: number } }).need.ofTheRest).toBe(0);
    expect(idle).toMatchObject({ onHand: '40', action: 'nothing', pace: { kind: 'dead' } });
    expect((await list('show=idle')).map(({ itemId }) => itemId)).toContain(moved.id);
  });

  test('of an item that is replaced goes to what replaces it, with its stock', async () => {
    const [old, fresh] = [await newItem(), await newItem()];
    await receive(old, '1');
    await dueFor(old, 3, '2026-12-01');
    await storekeeper
      .call('put', `/api/items/${old.id}/supply`)
      .set('if-match', '"0"')
      .send({ criticality: 'can wait', supersededById: fresh.id, alternatives: [], hazards: [] })
      .expect(200);
    await recompute();
    expect(await linesOf(old)).toEqual([]);
    expect(await lineOf(fresh)).toMatchObject({ action: 'buy', onHand: '1' });
    expect((await storekeeper.get(`/api/reorder/items/${old.id}`).expect(200)).body).toMatchObject({
      supersededById: fresh.id,
      cards: [{ line: { itemId: fresh.id } }],
    });
  });

  test('says so where nobody sells the item', async () => {
    const part = await newItem(null);
    await dueFor(part, 2, '2026-12-01');
    await recompute();
    expect(await lineOf(part)).toMatchObject({ action: 'buy', purchase: null, onHand: '0' });
  });
});

describe('what lies elsewhere', () => {
  test('is offered before anything is bought', async () => {
    const part = await newItem();
    await receive(part, '3', north);
    await dueFor(part, 5, '2026-12-01');
    await recompute();
    const [line] = (await linesOf(part)).filter(({ placeName }) => placeName === 'Main store');
    expect(line).toMatchObject({ action: 'buy', transfers: [{ fromPlaceName: 'North store', quantity: '3' }] });
    await receive(part, '20', north);
    await recompute();
    const [enough] = (await linesOf(part)).filter(({ placeName }) => placeName === 'Main store');
    expect(enough).toMatchObject({ action: 'transfer', purchase: null, transfers: [{ fromPlaceName: 'North store' }] });
    expect(enough?.id).toBe(line?.id);
  });

  test('fills a van up to its minimum from its store', async () => {
    const part = await newItem();
    await receive(part, '9');
    const path = `/api/reorder/items/${part.id}/places/${van.id}/setting`;
    const kept = await storekeeper.call('put', path).set('if-match', '"0"').send({ minimum: '2', maximum: '3', note: 'Always on board' }).expect(200);
    expect(kept.body).toMatchObject({ minimum: '2', maximum: '3', by: 'A storekeeper', version: 1 });
    const line = (await linesOf(part)).find(({ placeName }) => placeName === 'Van of Ada');
    expect(line).toMatchObject({
      action: 'transfer',
      point: 1,
      upTo: 2,
      quantity: '2',
      transfers: [{ fromPlaceName: 'Main store', quantity: '2' }],
      minimum: '2',
    });
    await storekeeper.call('put', path).set('if-match', '"0"').send({ minimum: '1' }).expect(412);
    await storekeeper.call('put', path).set('if-match', '"1"').send({ minimum: '0' }).expect(200);
    expect((await linesOf(part)).find(({ placeName }) => placeName === 'Van of Ada')).toMatchObject({ action: 'nothing' });
  });
});

describe('a decision', () => {
  test('to dismiss holds with its reason until there is less', async () => {
    const part = await newItem();
    await receive(part, '2');
    await dueFor(part, 4, '2026-12-01');
    await recompute();
    expect(pointersOf((await decide(await lineOf(part), 'dismiss').expect(400)).body)).toEqual(['#/reason']);
    const dismissed = (await decide(await lineOf(part), 'dismiss', { reason: 'The pump is to be replaced' }).expect(200)).body;
    expect(dismissed.decision).toMatchObject({ state: 'dismissed', reason: 'The pump is to be replaced', by: 'A storekeeper' });
    await recompute();
    expect(await linesOf(part, 'show=to do')).toEqual([]);
    expect(await lineOf(part, 'show=dismissed')).toMatchObject({ decision: { state: 'dismissed' } });
    await post('scrap', part.id, '1', { fromPlaceId: main.id });
    await recompute();
    expect(await lineOf(part, 'show=to do')).toMatchObject({ decision: null });
    const { cards } = (await storekeeper.get(`/api/reorder/items/${part.id}`).expect(200)).body;
    expect(cards[0].decisions).toEqual([expect.objectContaining({ state: 'dismissed', endedWhy: 'things changed' })]);
  });

  test('to dismiss until a day is over after it', async () => {
    const part = await newItem();
    await dueFor(part, 4, '2026-12-20');
    await recompute();
    expect(pointersOf((await decide(await lineOf(part), 'dismiss', { reason: 'x', until: '2026-11-24' }).expect(400)).body)).toEqual(['#/until']);
    await decide(await lineOf(part), 'dismiss', { reason: 'After the fair', until: '2026-11-26' }).expect(200);
    now = '2026-11-27T09:00:00Z';
    await recompute();
    now = '2026-11-25T09:00:00Z';
    expect((await lineOf(part)).decision).toBeNull();
  });

  test('becomes a draft order, once, and what is on order is not proposed again', async () => {
    const [part, second] = [await newItem({ pack: '5' }), await newItem()];
    await make(storekeeper, '/api/offers', { itemId: second.id, supplierId: other.id, purchaseUnit: 'C62', price: '11', rank: 2 });
    for (const item of [part, second]) await dueFor(item, 4, '2026-12-01');
    await recompute();
    await decide(await lineOf(part), 'accept').expect(200);
    const line = await lineOf(second);
    expect(pointersOf((await decide(line, 'accept', { quantity: '9' }).expect(400)).body)).toEqual(['#/reason']);
    expect(pointersOf((await decide(line, 'accept', { supplierId: randomUUID(), reason: 'x' }).expect(400)).body)).toEqual(['#/supplierId']);
    await decide(line, 'change', { quantity: '9', supplierId: other.id, reason: 'Cheaper there' }).expect(200);
    expect(await lineOf(second, 'show=accepted')).toMatchObject({ decision: { state: 'changed', quantity: '9', supplierName: 'Ash Supplies' } });
    const key = randomUUID();
    const send = () => storekeeper.post('/api/reorder/orders', {}).set('idempotency-key', key).expect(201);
    const made = (await send()).body;
    expect(made.orders.map(({ supplierName, lines }: Record<string, unknown>) => [supplierName, lines]).sort()).toEqual([
      ['Ash Supplies', 1],
      ['Brook Seals', 1],
    ]);
    expect((await send()).body).toEqual(made);
    const orders = await Promise.all(made.orders.map(async ({ id }: Made) => (await storekeeper.get(`/api/orders/${id}`).expect(200)).body));
    const lines = orders.flatMap((order) => order.lines);
    expect(lines.find(({ itemId }: Line) => itemId === second.id)).toMatchObject({ quantity: '9', reason: 'Cheaper there', neededOn: '2026-12-01' });
    expect(await lineOf(second)).toMatchObject({ action: 'nothing', onOrder: '9', decision: null });
    expect(await lineOf(part)).toMatchObject({ action: 'nothing', decision: null });
    await storekeeper.post('/api/reorder/orders', {}).expect(409);
  });

  test('is taken back', async () => {
    const part = await newItem();
    await dueFor(part, 1, '2026-12-01');
    await recompute();
    await decide(await lineOf(part), 'accept').expect(200);
    expect((await decide(await lineOf(part), 'reopen').expect(200)).body.decision).toBeNull();
    await decide(await lineOf(part), 'reopen').expect(409);
    await storekeeper.post(`/api/reorder/lines/${randomUUID()}/accept`, {}).expect(404);
    await ada.api.get('/api/reorder').expect(403);
  });
});

describe('the list', () => {
  test('follows what is entered, with a known number of statements', async () => {
    const part = await newItem();
    await recompute();
    now = '2026-11-25T09:05:00Z';
    await dueFor(part, 2, '2026-12-01');
    await app.get(Database).prisma.due.updateMany({ data: { computedAt: new Date('2026-11-25T09:04:00Z') } });
    await app.get(RecomputeReorder).changed();
    expect(await lineOf(part)).toMatchObject({ action: 'buy' });
    const parts = (await list('show=all')).map(({ itemId }) => String(itemId));
    const one = await countQueries(() => app.get(RecomputeReorder).ofItems([part.id]));
    const all = await countQueries(() => app.get(RecomputeReorder).ofItems(parts));
    expect(all).toBe(one);
    expect(one).toBeLessThan(40);
  });

  test('is read page by page, narrowed, and as a table', async () => {
    const first = (await storekeeper.get('/api/reorder?show=all&limit=2').expect(200)).body;
    expect(first.items).toHaveLength(2);
    const next = (await storekeeper.get(`/api/reorder?show=all&limit=2&cursor=${first.next}`).expect(200)).body;
    expect(next.items.map(({ id }: Line) => id)).not.toContain(first.items[0].id);
    expect(first.total).toBe((await list('show=all')).length);
    expect((await list(`show=all&placeId=${north.id}`)).every(({ placeName }) => placeName === 'North store')).toBe(true);
    expect(await list(`show=all&supplierId=${randomUUID()}`)).toEqual([]);
    expect((await list('show=all&orderBy=2026-11-25')).every(({ orderBy }) => orderBy === '2026-11-25')).toBe(true);
    const table = (await storekeeper.get('/api/reorder/lines.csv?show=all').expect(200)).text.split('\r\n');
    expect(table[0]).toContain('item,name,place,action,quantity');
    expect(table).toHaveLength(first.total + 2);
    await storekeeper.get('/api/reorder?show=some').expect(400);
    await storekeeper.get('/api/reorder?cursor=abc').expect(400);
  });

  test.each([
    [{ service: 'cost' }, '#/shortCost'],
    [{ asked: 1 }, '#/asked'],
    [{ minimum: '-1' }, '#/minimum'],
    [{ minimum: '3', maximum: '2' }, '#/maximum'],
    [{ reviewDays: 400 }, '#/reviewDays'],
    [{ criticality: 'urgent' }, '#/criticality'],
  ])('a setting of %j is refused', async (setting, pointer) => {
    const part = await newItem();
    const path = `/api/reorder/items/${part.id}/places/${main.id}/setting`;
    expect(pointersOf((await storekeeper.call('put', path).set('if-match', '"0"').send(setting).expect(400)).body)).toEqual([pointer]);
    expect((await storekeeper.get(path).expect(200)).body).toMatchObject({ version: 0, minimum: null });
  });

  test('a card shows the balance over time, what is on its way and what expires', async () => {
    const part = await newItem();
    await post('receive', part.id, '10', { toPlaceId: main.id }, '2026-11-05T08:00:00Z');
    const lot = [{ itemId: part.id, quantity: '2', toPlaceId: main.id, lot: 'L1', expiresOn: '2026-12-31' }];
    await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind: 'receive', at: '2026-11-20T08:00:00Z', note: '', moves: lot }).expect(201);
    await make(storekeeper, '/api/orders', { supplierId: supplier.id, placeId: main.id, lines: [{ itemId: part.id, quantity: '5' }] });
    await dueFor(part, 4, '2026-12-09');
    const { cards } = (await storekeeper.get(`/api/reorder/items/${part.id}`).expect(200)).body;
    expect(cards).toHaveLength(1);
    const [{ past, ahead, arrivals, expiries, line }] = cards;
    expect(past.at(-1)).toEqual({ day: '2026-11-25', onHand: 12 });
    expect(past.at(-2)).toEqual({ day: '2026-11-18', onHand: 10 });
    expect(past.at(-4)).toEqual({ day: '2026-11-04', onHand: 0 });
    expect(arrivals).toEqual([expect.objectContaining({ kind: 'order', quantity: '5', day: '2026-12-05', late: false })]);
    expect(expiries).toEqual([{ day: '2026-12-31', lot: 'L1', quantity: '2', placeName: 'Main store' }]);
    expect(ahead[0]).toMatchObject({ day: '2026-11-25', expected: 12 });
    expect(ahead[2].expected).toBeLessThan(14);
    expect(line).toMatchObject({ onOrder: '5', position: '17' });
  });
});
