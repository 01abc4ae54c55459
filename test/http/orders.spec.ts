import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
let app: NestFastifyApplication;
let today = '2026-11-25';
let manager: Api;
let storekeeper: Api;
let technician: Api;
let client: Api;
let supplier: Made;
let foreign: Made;
let seal: Made;
let hypo: Made;
let store: Made;
let quarantine: Made;

interface Line {
  readonly id: string;
  readonly open: string;
  readonly [field: string]: unknown;
}
interface Order extends Made {
  readonly no: number;
  readonly state: string;
  readonly lines: readonly Line[];
  readonly receipts: readonly { readonly id: string }[];
  readonly changes: readonly { readonly what: string; readonly detail: string; readonly by: string }[];
}

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date(`${today}T09:00:00Z`);
  [manager, storekeeper, technician] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper'), await signInAs(app, 'technician')];
  const [skid] = await makeSkids(app, 'Alder', 1);
  client = await signInAs(app, 'client', { clientId: skid?.clientId ?? '' });
  seal = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' });
  hypo = await make(storekeeper, '/api/items', { code: 'HYPO', name: 'Sodium hypochlorite 12.5 %', kind: 'chemical', unit: 'LTR' });
  store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  quarantine = await make(storekeeper, '/api/places', { name: 'Shelf of doubt', kind: 'store' });
  supplier = await make(storekeeper, '/api/suppliers', {
    name: 'Brook Seals',
    currency: 'EUR',
    email: 'orders@brook.example',
    leadDays: 10,
    minimumOrder: '200',
  });
  foreign = await make(storekeeper, '/api/suppliers', { name: 'Ash Chemicals', currency: 'GBP' });
  await make(storekeeper, '/api/offers', { itemId: seal.id, supplierId: supplier.id, purchaseUnit: 'DZN', price: '36', supplierCode: 'B-7' });
  await make(storekeeper, '/api/offers', { itemId: hypo.id, supplierId: supplier.id, purchaseUnit: 'XIH', unitsPerPurchase: '60', price: '84.5', pack: '2' });
});
afterAll(() => app?.close());

const draft = async (lines: object[], about: object = {}): Promise<Order> =>
  (await make(storekeeper, '/api/orders', { supplierId: supplier.id, placeId: store.id, lines, ...about })) as Order;
const act = (by: Api, { id, version }: Pick<Order, 'id' | 'version'>, what: string, body: object = {}) =>
  by.call('post', `/api/orders/${id}/${what}`).set('if-match', `"${version}"`).send(body);
const done = async (order: Pick<Order, 'id' | 'version'>, what: string, body: object = {}, by = storekeeper): Promise<Order> =>
  (await act(by, order, what, body).expect(200)).body;
const sent = async (lines: object[], about: object = {}): Promise<Order> => done(await done(await draft(lines, about), 'approve'), 'send');
const receive = (order: Order, lines: object[], about: object = {}) =>
  storekeeper.post(`/api/orders/${order.id}/receipts`, { id: randomUUID(), at: `${today}T08:00:00Z`, lines, ...about });
const received = async (order: Order, lines: object[], about: object = {}): Promise<Order> => (await receive(order, lines, about).expect(200)).body;
const onHand = async (itemId: string) =>
  Object.fromEntries(
    (await technician.get(`/api/stock?itemId=${itemId}`).expect(200)).body.items.map(({ placeName, lot, onHand: size }: Record<string, string>) => [
      `${placeName} ${lot}`,
      size,
    ]),
  );
const lineOf = (order: Order, at = 0): Line => {
  const line = order.lines[at];
  if (line === undefined) throw new Error(`The order has no line ${at}`);
  return line;
};

describe('a draft', () => {
  test('takes what is left out from the supplier’s offer', async () => {
    const order = await draft([
      { itemId: seal.id, quantity: '3', neededOn: '2026-12-10', reason: 'Two pumps in December' },
      { itemId: hypo.id, quantity: '120', unit: 'LTR' },
    ]);
    expect(order).toMatchObject({
      state: 'draft',
      arrived: 'nothing',
      currency: 'EUR',
      value: '276.996',
      withoutPrice: 0,
      supplierEmail: 'orders@brook.example',
      placeName: 'Main store',
    });
    expect(lineOf(order)).toMatchObject({ no: 1, unit: 'DZN', quantity: '3', price: '36', supplierCode: 'B-7', ordered: '36', open: '36', useUnit: 'C62' });
    expect(lineOf(order, 1)).toMatchObject({ unit: 'LTR', price: '1.4083', ordered: '120' });
    expect(order.changes).toEqual([expect.objectContaining({ what: 'made', by: 'A storekeeper' })]);
    await technician.get('/api/orders').expect(403);
    await client.get(`/api/orders/${order.id}`).expect(403);
  });

  test('is edited, and every change is on record', async () => {
    const order = await draft([{ itemId: seal.id, quantity: '3' }]);
    const edited = (
      await storekeeper.patch(`/api/orders/${order.id}`, order.version, { note: 'Gate 2', lines: [{ itemId: seal.id, quantity: '1', unit: 'PR' }] }).expect(200)
    ).body;
    expect(edited).toMatchObject({ note: 'Gate 2', value: '6' });
    expect(edited.changes.map(({ what, detail }: Order['changes'][number]) => [what, detail])).toEqual([
      ['made', '1 lines'],
      ['edited', 'note, 1 lines'],
    ]);
    await storekeeper.patch(`/api/orders/${order.id}`, order.version, { note: 'Gate 3' }).expect(412);
  });

  test.each([
    [{ lines: [{ quantity: '1', unit: 'KGM' }] }, '#/lines/0/unit'],
    [{ lines: [{ quantity: '-1' }] }, '#/lines/0/quantity'],
    [{ lines: [{ quantity: '1', itemId: NOBODY }] }, '#/lines/0/itemId'],
    [{ lines: [] }, '#/lines'],
    [{ supplierId: NOBODY }, '#/supplierId'],
    [{ placeId: NOBODY }, '#/placeId'],
  ])('%j is none', async ({ lines = [{ quantity: '1' }], ...about }: { lines?: object[]; [field: string]: unknown }, pointer) => {
    const body = { supplierId: supplier.id, placeId: store.id, lines: lines.map((line) => ({ itemId: hypo.id, ...line })), ...about };
    expect(pointersOf((await storekeeper.post('/api/orders', body).expect(400)).body)).toEqual([pointer]);
  });

  test('of many wants is one for each supplier and place, in whole packs, filled up to the minimum order', async () => {
    const want = (itemId: string, about: object = {}) => ({ itemId, placeId: store.id, quantity: '13', ...about });
    const lines = [
      want(seal.id, { reason: 'Stock runs out' }),
      want(hypo.id, { orderBy: '2026-12-05' }),
      want(NOBODY),
      want(seal.id, { supplierId: foreign.id }),
      want(seal.id, { orderBy: '2027-06-01' }),
    ];
    const { body } = await storekeeper.post('/api/orders/drafts', { lines }).expect(201);
    expect(body.orders).toEqual([expect.objectContaining({ supplierName: 'Brook Seals', state: 'draft', lines: 2, value: '241' })]);
    expect(body.short).toEqual([]);
    expect(body.leftOut.map(({ line, why }: { line: number; why: string }) => [line, why.split(' ').slice(0, 3).join(' ')])).toEqual([
      [2, 'there is no'],
      [3, 'nobody is known'],
      [4, 'it need not'],
    ]);
    const order: Order = (await storekeeper.get(`/api/orders/${body.orders[0].id}`).expect(200)).body;
    expect(order.lines.map(({ quantity, unit, reason }) => [quantity, unit, reason])).toEqual([
      ['2', 'DZN', 'Stock runs out; raised to whole packs'],
      ['2', 'XIH', 'raised to whole packs; taken along to reach the supplier’s minimum order'],
    ]);
  });
});

describe('approval', () => {
  test('above the limit is a manager’s, and what the order is worth must be known', async () => {
    await manager.call('put', '/api/store-settings').set('if-match', '"1"').send({ reckoningCurrency: 'EUR', managerApprovesAbove: '100' }).expect(200);
    const dear = await draft([{ itemId: seal.id, quantity: '3' }]);
    expect((await act(storekeeper, dear, 'approve').expect(409)).body.title).toContain('108 EUR');
    expect(await done(dear, 'approve', {}, manager)).toMatchObject({ state: 'approved', approvedBy: 'A manager' });
    const unpriced = await draft([{ itemId: seal.id, quantity: '3' }], { supplierId: foreign.id });
    expect((await act(storekeeper, unpriced, 'approve').expect(409)).body.title).toContain('not known');
    await manager.call('put', '/api/store-settings').set('if-match', '"2"').send({ reckoningCurrency: 'EUR' }).expect(200);
    await done(await draft([{ itemId: seal.id, quantity: '3' }]), 'approve');
  });

  test('is taken back to change the order, which is then approved anew', async () => {
    const approved = await done(await draft([{ itemId: seal.id, quantity: '1' }]), 'approve');
    await storekeeper.patch(`/api/orders/${approved.id}`, approved.version, { note: 'x' }).expect(409);
    expect(await done(approved, 'take-back')).toMatchObject({ state: 'draft', approvedBy: null });
  });

  test('comes before sending, and sending needs the rate of the currency', async () => {
    const order = await draft([{ itemId: seal.id, quantity: '1', price: '3' }], { supplierId: foreign.id });
    expect((await act(storekeeper, order, 'send').expect(409)).body.title).toContain('approve and send it first');
    const approved = await done(order, 'approve');
    expect((await act(storekeeper, approved, 'send').expect(409)).body.title).toContain('GBP');
    await storekeeper.post('/api/currency-rates', { currency: 'GBP', fromDay: '2026-11-01', rate: '1.16' }).expect(200);
    expect(await done(approved, 'send')).toMatchObject({ state: 'sent', rate: '1.16', sentHow: 'by hand' });
  });
});

describe('receiving', () => {
  test('comes in parts, each into stock, and closes the order when all is there', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '2' }]);
    const part = await received(order, [{ lineId: lineOf(order).id, quantity: '1', unit: 'DZN', lot: 'L1', expiresOn: '2028-01-01' }], { deliveryNote: 'D-1' });
    expect(part).toMatchObject({ state: 'sent', arrived: 'part', receipts: [{ deliveryNote: 'D-1', by: 'A storekeeper' }] });
    expect(lineOf(part)).toMatchObject({ good: '12', open: '12' });
    const all = await received(part, [{ lineId: lineOf(order).id, quantity: '12' }]);
    expect(all).toMatchObject({ state: 'closed', arrived: 'all', endedBy: 'A storekeeper' });
    expect(await onHand(seal.id)).toEqual({ 'Main store L1': '12', 'Main store null': '12' });
    expect((await receive(all, [{ lineId: lineOf(order).id, quantity: '1' }]).expect(409)).body.title).toContain('make a new order');
    expect(all.changes.map(({ what }) => what)).toEqual(['made', 'approved', 'sent', 'received', 'received', 'closed']);
  });

  test('sent again is received once; another delivery needs another id', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const before = await onHand(seal.id);
    const receipt = { id: randomUUID(), at: `${today}T08:00:00Z`, lines: [{ lineId: lineOf(order).id, quantity: '5', lot: 'L2' }] };
    const all = await Promise.all(Array.from({ length: 6 }, () => storekeeper.post(`/api/orders/${order.id}/receipts`, receipt)));
    expect(all.map(({ status }) => status)).toEqual(Array.from({ length: 6 }, () => 200));
    expect(await onHand(seal.id)).toEqual({ ...before, 'Main store L2': '5' });
    await storekeeper.post(`/api/orders/${order.id}/receipts`, { ...receipt, note: 'x' }).expect(422);
  });

  test('is of the supplier or of a client where that was said, and then costs nothing until it is used', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const line = { lineId: lineOf(order).id, quantity: '6' };
    const client = await make(manager, '/api/clients', { name: 'Owns its seals' });
    const refused = async (about: object) => (await receive(order, [line], about).expect(400)).body.errors[0].pointer;
    expect(await refused({ owner: 'client' })).toBe('#/ownerId');
    expect(await refused({ owner: 'client', ownerId: NOBODY })).toBe('#/ownerId');
    expect(await refused({ ownerId: client.id })).toBe('#/ownerId');
    await received(order, [{ ...line, lot: 'C1' }], { owner: 'client', ownerId: client.id });
    await received(order, [{ ...line, lot: 'K1' }], { owner: 'supplier' });
    const { items } = (await storekeeper.get(`/api/stock?itemId=${seal.id}`).expect(200)).body as { items: Record<string, string>[] };
    const owners = Object.fromEntries(items.map(({ lot, owner, ownerName }) => [lot, [owner, ownerName]]));
    expect(owners).toMatchObject({ C1: ['client', 'Owns its seals'], K1: ['supplier', supplier.name] });
    const { rows } = await app.get(Database).pool.query(`SELECT unit_cost FROM stock_move WHERE lot IN ('C1', 'K1')`);
    expect(rows).toEqual([{ unit_cost: null }, { unit_cost: null }]);
  });

  test('names the line of a place that is not there', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const answer = await receive(order, [{ lineId: lineOf(order).id, quantity: '1', placeId: NOBODY }]).expect(400);
    expect(answer.body.errors).toEqual([{ pointer: '#/lines/0/placeId', message: 'there is no such place' }]);
  });

  test('two at once never take in more than was ordered', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const answers = await Promise.all(Array.from({ length: 6 }, () => receive(order, [{ lineId: lineOf(order).id, quantity: '5', lot: 'L3' }])));
    expect(answers.map(({ status }) => status).sort((a, b) => a - b)).toEqual([200, 200, 400, 400, 400, 400]);
    expect(await onHand(seal.id)).toMatchObject({ 'Main store L3': '10' });
  });

  test('of more than was ordered asks first, and of what is damaged or wrong fills nothing', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const { id: lineId } = lineOf(order);
    const refused = await receive(order, [{ lineId, quantity: '13' }]).expect(400);
    expect(pointersOf(refused.body)).toEqual(['#/lines/0/quantity']);
    expect(refused.body.errors[0].message).toContain('keepMore');
    const mixed = await received(order, [
      { lineId, quantity: '4', lot: 'L4' },
      { lineId, quantity: '3', outcome: 'damaged', placeId: quarantine.id, lot: 'L4' },
      { lineId, quantity: '2', outcome: 'wrong', itemId: hypo.id, placeId: quarantine.id },
      { lineId, quantity: '1', outcome: 'damaged', note: 'The driver took it back' },
    ]);
    expect(lineOf(mixed)).toMatchObject({ good: '4', damaged: '4', wrong: '2', open: '8', over: '0' });
    expect(await onHand(hypo.id)).toEqual({ 'Shelf of doubt null': '2' });
    const more = await received(mixed, [{ lineId, quantity: '9', lot: 'L4' }], { keepMore: true });
    expect(more).toMatchObject({ state: 'closed', arrived: 'all' });
    expect(lineOf(more)).toMatchObject({ good: '13', open: '0', over: '1' });
    expect(await onHand(seal.id)).toMatchObject({ 'Main store L4': '13', 'Shelf of doubt L4': '3' });
  });

  test.each([
    [{ unit: 'KGM' }, '#/lines/0/unit'],
    [{ quantity: '0' }, '#/lines/0/quantity'],
    [{ quantity: '-2' }, '#/lines/0/quantity'],
    [{ expiresOn: '2026-11-24' }, '#/lines/0/expiresOn'],
    [{ lineId: NOBODY }, '#/lines/0/lineId'],
    [{ outcome: 'wrong', placeId: NOBODY }, '#/lines/0/itemId'],
    [{ itemId: NOBODY }, '#/lines/0/itemId'],
  ])('%j is refused, and nothing is written', async (about, pointer) => {
    const order = await sent([{ itemId: hypo.id, quantity: '2' }]);
    const before = await onHand(hypo.id);
    const refused = await receive(order, [{ lineId: lineOf(order).id, quantity: '60', ...about }]).expect(400);
    expect(pointersOf(refused.body)).toEqual([pointer]);
    expect(await onHand(hypo.id)).toEqual(before);
    expect((await storekeeper.get(`/api/orders/${order.id}`)).body).toMatchObject({ arrived: 'nothing', receipts: [] });
  });

  test('that was entered wrongly is taken back, as long as the goods are there', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const all = await received(order, [{ lineId: lineOf(order).id, quantity: '12', lot: 'L5' }]);
    const path = `/api/orders/${order.id}/receipts/${all.receipts[0]?.id}/take-back`;
    const reversal = { id: randomUUID(), at: `${today}T08:30:00Z`, note: 'Wrong order' };
    const behind = await storekeeper.post(`/api/stock/posts/${all.receipts[0]?.id}/reverse`, reversal).expect(409);
    expect(behind.body.title).toContain(`a receipt on order ${order.no}`);
    expect(await onHand(seal.id)).toMatchObject({ 'Main store L5': '12' });
    const use = {
      id: randomUUID(),
      kind: 'scrap',
      at: `${today}T08:30:00Z`,
      note: 'Fell',
      moves: [{ itemId: seal.id, lot: 'L5', quantity: '1', fromPlaceId: store.id }],
    };
    await storekeeper.post('/api/stock/posts', use).expect(201);
    expect((await storekeeper.post(path, { id: randomUUID(), reason: 'Wrong order' }).expect(409)).body.title).toContain('holds 11');
    await storekeeper.post(`/api/stock/posts/${use.id}/reverse`, { id: randomUUID(), at: `${today}T08:40:00Z`, note: 'Found' }).expect(201);
    const back: Order = (await storekeeper.post(path, { id: randomUUID(), reason: 'Wrong order' }).expect(200)).body;
    expect(back).toMatchObject({ state: 'sent', arrived: 'nothing', endedAt: null });
    expect(await onHand(seal.id)).not.toHaveProperty('Main store L5');
    await storekeeper.post(path, { id: randomUUID(), reason: 'Again' }).expect(409);
    await storekeeper.post(`/api/orders/${order.id}/receipts/${NOBODY}/take-back`, { id: randomUUID(), reason: 'x' }).expect(404);
  });
});

describe('returns', () => {
  test('take goods out of stock, and what is replaced is awaited again', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const { id: lineId } = lineOf(order);
    const all = await received(order, [{ lineId, quantity: '12', lot: 'L6' }]);
    const give = (lines: object[]) =>
      storekeeper.post(`/api/orders/${order.id}/returns`, { id: randomUUID(), at: `${today}T08:45:00Z`, reason: 'Wrong hardness', lines });
    const line = { lineId, outcome: 'good', quantity: '5', placeId: store.id, lot: 'L6' };
    expect(all.state).toBe('closed');
    expect(pointersOf((await give([{ ...line, quantity: '13' }]).expect(400)).body)).toEqual(['#/lines/0/quantity']);
    expect(pointersOf((await give([{ ...line, placeId: quarantine.id }]).expect(422)).body)).toEqual(['#/lines/0/quantity']);
    const back: Order = (await give([line]).expect(200)).body;
    expect(back).toMatchObject({ state: 'sent', arrived: 'part' });
    expect(lineOf(back)).toMatchObject({ good: '7', open: '5' });
    expect((await give([{ ...line, quantity: '2', replaced: false }]).expect(200)).body.lines[0]).toMatchObject({ good: '7', open: '5' });
    expect(pointersOf((await give([{ ...line, quantity: '6' }]).expect(400)).body)).toEqual(['#/lines/0/quantity']);
    expect(await onHand(seal.id)).toMatchObject({ 'Main store L6': '5' });
    const [last] = (await storekeeper.get(`/api/stock/moves?itemId=${seal.id}&limit=1`).expect(200)).body.items;
    expect(last).toMatchObject({ kind: 'send back', quantity: '2', fromPlaceName: 'Main store' });
    const behind = await storekeeper.post(`/api/stock/posts/${last.postId}/reverse`, { id: randomUUID(), at: `${today}T08:50:00Z`, note: 'x' }).expect(409);
    expect(behind.body.title).toContain(`return to the supplier on order ${order.no}`);
  });
});

describe('the end of an order', () => {
  test('gives up the rest with a reason, and is cancelled only while nothing has come', async () => {
    const order = await sent([{ itemId: seal.id, quantity: '1' }]);
    const part = await received(order, [{ lineId: lineOf(order).id, quantity: '1' }]);
    expect((await act(storekeeper, part, 'cancel', { reason: 'Too late' }).expect(409)).body.title).toContain('close it instead');
    expect(pointersOf((await act(storekeeper, part, 'close').expect(400)).body)).toEqual(['#/reason']);
    expect(await done(part, 'close', { reason: 'No longer made' })).toMatchObject({ state: 'closed', arrived: 'part', endReason: 'No longer made' });
    const other = await draft([{ itemId: seal.id, quantity: '1' }]);
    expect(pointersOf((await act(storekeeper, other, 'cancel').expect(400)).body)).toEqual(['#/reason']);
    expect(await done(other, 'cancel', { reason: 'Ordered twice' })).toMatchObject({ state: 'cancelled' });
  });

  test('a supplier with open orders does not end, nor change its currency', async () => {
    const path = `/api/suppliers/${supplier.id}`;
    await storekeeper.call('post', `${path}/end`).set('if-match', '"1"').send({ on: '2026-11-24' }).expect(409);
    await storekeeper.patch(path, 1, { currency: 'USD' }).expect(409);
  });
});

describe('what is awaited', () => {
  test('is late by the promise or the stated days, the latest first, and is asked after by letter', async () => {
    const late = await sent([{ itemId: hypo.id, quantity: '2', neededOn: '2026-12-08' }]);
    const promised = await done(await sent([{ itemId: hypo.id, quantity: '2' }]), 'promise', { promisedOn: '2026-12-24' });
    expect(pointersOf((await act(storekeeper, promised, 'promise', { promisedOn: '2026-11-24' }).expect(400)).body)).toEqual(['#/promisedOn']);
    today = '2026-12-10';
    const { items } = (await storekeeper.get('/api/orders/awaited').expect(200)).body;
    const found = (id: string) => items.find(({ order }: { order: { id: string } }) => order.id === id);
    expect(found(late.id)).toMatchObject({ expectedOn: '2026-12-05', by: 'stated', lateDays: 5, afterNeedDays: 2 });
    expect(found(promised.id)).toMatchObject({ expectedOn: '2026-12-24', by: 'promise', lateDays: 0 });
    const delays = items.map(({ lateDays }: { lateDays: number }) => lateDays);
    expect(delays).toEqual([...delays].sort((a, b) => b - a));
    const letter = (await storekeeper.get(`/api/orders/${late.id}/letter`).expect(200)).body;
    expect(letter).toMatchObject({ to: 'orders@brook.example', subject: expect.stringContaining('when will it come') });
    expect(letter.text).toContain('120 litre');
    today = '2026-11-25';
  });

  test('and what came teach how long an item takes', async () => {
    const at = async () => (await storekeeper.get(`/api/items/${seal.id}/lead-times`).expect(200)).body.items[0];
    const before = await at();
    expect(before).toMatchObject({ supplierName: 'Brook Seals', statedDays: 10 });
    const { prisma } = app.get(Database);
    await prisma.purchaseOrder.updateMany({ where: { state: 'sent' }, data: { sentAt: new Date('2026-11-24T09:00:00Z') } });
    const orders = await Promise.all(Array.from({ length: 5 }, () => sent([{ itemId: seal.id, quantity: '1' }])));
    today = '2026-12-25';
    for (const order of orders) await received(order, [{ lineId: lineOf(order).id, quantity: '12' }]);
    const after = await at();
    expect(after.p50).toBeGreaterThan(before.p50);
    expect(after.came).toBeGreaterThanOrEqual(before.came + 5);
    expect(after.pmf.reduce((sum: number, share: number) => sum + share, 0)).toBeCloseTo(1, 9);
    await storekeeper.get(`/api/items/${NOBODY}/lead-times`).expect(404);
    today = '2026-11-25';
  });
});

test('orders are listed, found and written as a table', async () => {
  const order = await draft([{ itemId: hypo.id, quantity: '2' }], { note: 'For the =sum' });
  const { items } = (await storekeeper.get(`/api/orders?limit=1&itemId=${hypo.id}`).expect(200)).body;
  expect(items).toEqual([expect.objectContaining({ id: order.id, state: 'draft' })]);
  expect((await storekeeper.get(`/api/orders?find=${order.no}&state=draft`).expect(200)).body.items[0].id).toBe(order.id);
  const text = (await storekeeper.get(`/api/orders/${order.id}/lines.csv`).expect(200)).text;
  expect(text).toBe(
    `order,line,item,supplier code,name,quantity,unit,price,currency,needed on\r\n${order.no},1,HYPO,,Sodium hypochlorite 12.5 %,2,XIH,84.5,EUR,\r\n`,
  );
});

test('the ledger holds no fault after all this', async () => {
  const { rows } = await app.get(Database).pool.query('SELECT * FROM stock_fault');
  expect(rows).toEqual([]);
});
