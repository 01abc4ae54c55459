import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

const AT = '2026-11-24T10:00:00Z';
let app: NestFastifyApplication;
let storekeeper: Api;
let ada: { api: Api; id: string };
let north: Made;
let south: Made;
let van: Made;
let seal: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  storekeeper = await signInAs(app, 'storekeeper');
  ada = await signInByName(app, 'Ada');
  north = await make(storekeeper, '/api/places', { name: 'North', kind: 'store' });
  south = await make(storekeeper, '/api/places', { name: 'South', kind: 'store' });
  van = await make(storekeeper, '/api/places', { name: 'Van of Ada', kind: 'van', personId: ada.id });
  seal = await make(storekeeper, '/api/items', { code: 'SEAL', name: 'Seal', kind: 'seal' });
  const moves = [
    { itemId: seal.id, quantity: '10', toPlaceId: north.id, lot: 'L1' },
    { itemId: seal.id, quantity: '10', toPlaceId: north.id },
  ];
  await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind: 'receive', at: AT, moves }).expect(201);
});
afterAll(() => app?.close());

interface Transfer extends Made {
  readonly endedAt: string | null;
  readonly lines: { lot: string | null; sent: string; arrived: string; lost: string; onTheWay: string }[];
}
const send = (lines: object[], more: object = {}, by = storekeeper) =>
  by.post('/api/transfers', { id: randomUUID(), fromPlaceId: north.id, toPlaceId: south.id, at: AT, lines, ...more });
const sent = async (quantity: string, more: object = {}): Promise<Transfer> =>
  (await send([{ itemId: seal.id, quantity, lot: 'L1', ...more }]).expect(201)).body;
const arrive = (id: string, lines: object[], more: object = {}, by = storekeeper) =>
  by.post(`/api/transfers/${id}/arrivals`, { id: randomUUID(), at: '2026-11-25T08:00:00Z', lines, ...more });
const came = (quantity: string, lot: string | null = 'L1') => ({ itemId: seal.id, quantity, lot });
const told = ({ lines, endedAt }: Transfer) => [
  ...lines.map(({ lot, sent: size, arrived, lost, onTheWay }) => `${size} ${lot}: ${arrived} came, ${lost} lost, ${onTheWay} on the way`),
  endedAt === null ? 'open' : 'ended',
];
const stock = async () =>
  (await ada.api.get('/api/stock').expect(200)).body.items.map((line: Record<string, string>) => `${line.placeName}: ${line.onHand} ${line.lot}`).sort();
const faults = () =>
  app
    .get(Database)
    .pool.query('SELECT * FROM stock_fault')
    .then(({ rows }) => rows);

describe('goods on the way', () => {
  let transfer: Transfer;

  test('leave one place and are not yet at the other', async () => {
    transfer = await sent('4');
    expect(transfer).toMatchObject({ fromPlaceName: 'North', toPlaceName: 'South', sentBy: 'A storekeeper', expectedOn: null });
    expect(told(transfer)).toEqual(['4 L1: 0 came, 0 lost, 4 on the way', 'open']);
    expect(await stock()).toEqual(['North: 10 null', 'North: 6 L1', 'On the way: 4 L1']);
    expect((await storekeeper.get('/api/transfers?open=true').expect(200)).body.items).toEqual([transfer]);
  });

  test('arrive in parts', async () => {
    const { body } = await arrive(transfer.id, [came('1.5')]).expect(200);
    expect(told(body)).toEqual(['4 L1: 1.5 came, 0 lost, 2.5 on the way', 'open']);
    expect(await stock()).toContain('South: 1.5 L1');
  });

  test('are refused where more came than was sent, unless that is kept and said why', async () => {
    const refused = await arrive(transfer.id, [came('3'), came('1', null)]).expect(400);
    expect(pointersOf(refused.body)).toEqual(['#/lines/0/quantity', '#/lines/1/itemId']);
    expect(refused.body.errors[0].message).toContain('2.5 C62 of SEAL are still on the way, and 3 came');
    expect(pointersOf((await arrive(transfer.id, [came('3')], { keepMore: true }).expect(400)).body)).toEqual(['#/note']);
  });

  test('that do not come are given up with the reason, which ends the transfer', async () => {
    const body = { id: randomUUID(), at: AT, lines: [came('2')], giveUpRest: true, note: 'The box was open' };
    const first = (await storekeeper.post(`/api/transfers/${transfer.id}/arrivals`, body).expect(200)).body;
    expect(told(first)).toEqual(['4 L1: 3.5 came, 0.5 lost, 0 on the way', 'ended']);
    expect((await storekeeper.post(`/api/transfers/${transfer.id}/arrivals`, body).expect(200)).body).toEqual(first);
    const other = await storekeeper.post(`/api/transfers/${transfer.id}/arrivals`, { ...body, lines: [came('1')] }).expect(422);
    expect(other.body.code).toBe('store/post-id-used');
    await arrive(transfer.id, [came('1')]).expect(409);
    expect(await stock()).toEqual(['North: 10 null', 'North: 6 L1', 'South: 3.5 L1']);
  });

  test('that are more than was sent are found, where somebody says so', async () => {
    const { id } = await sent('1');
    const { body } = await arrive(id, [came('1'), came('2', null)], { keepMore: true, note: 'Two seals were in the box besides' }).expect(200);
    expect(told(body)).toEqual(['1 L1: 1 came, 0 lost, 0 on the way', 'ended']);
    expect(await stock()).toEqual(['North: 10 null', 'North: 5 L1', 'South: 2 null', 'South: 4.5 L1']);
  });

  test('do not mix with those of another transfer', async () => {
    const [one, other] = [await sent('1'), await sent('2')];
    expect(pointersOf((await arrive(one.id, [came('2')]).expect(400)).body)).toEqual(['#/lines/0/quantity']);
    await arrive(other.id, [came('2')]).expect(200);
    expect(told((await storekeeper.get(`/api/transfers/${one.id}`).expect(200)).body)).toEqual(['1 L1: 0 came, 0 lost, 1 on the way', 'open']);
    await arrive(one.id, [came('1')]).expect(200);
  });
});

describe('sending', () => {
  test('takes what is there, once', async () => {
    const body = { id: randomUUID(), fromPlaceId: north.id, toPlaceId: south.id, at: AT, lines: [came('1')] };
    const [first, ...again] = await Promise.all([1, 2, 3].map(() => storekeeper.post('/api/transfers', body).expect(201)));
    for (const { body: answer } of again) expect(answer).toEqual(first?.body);
    expect((await storekeeper.post('/api/transfers', { ...body, lines: [came('2')] }).expect(422)).body.code).toBe('store/post-id-used');
    expect((await storekeeper.post('/api/transfers', { ...body, toPlaceId: van.id }).expect(422)).body.code).toBe('store/post-id-used');
    const short = await send([came('99')]).expect(422);
    expect(short.body).toMatchObject({ code: 'store/not-on-hand', errors: [{ pointer: '#/lines/0/quantity' }] });
    await arrive(body.id, [came('1')]).expect(200);
  });

  test('is for a technician from or to their own van', async () => {
    await send([came('1')], {}, ada.api).expect(400);
    const { body } = await send([came('1')], { toPlaceId: van.id }, ada.api).expect(201);
    await arrive(body.id, [came('1')], {}, ada.api).expect(200);
  });

  test('says what lies in a van, or is on its way there, and must not meet', async () => {
    const cautions = async () => (await ada.api.get(`/api/places/${van.id}/cautions`).expect(200)).body.cautions;
    const drum = async (name: string) => make(storekeeper, '/api/items', { code: name, name, kind: 'chemical', unit: 'LTR' });
    const [bleach, acid] = [await drum('Sodium hypochlorite'), await drum('Citric acid')];
    const moves = [bleach, acid].map(({ id: itemId }) => ({ itemId, quantity: '20', toPlaceId: north.id }));
    await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind: 'receive', at: AT, moves }).expect(201);
    const take = { id: randomUUID(), kind: 'transfer', at: AT, moves: [{ itemId: bleach.id, quantity: '5', fromPlaceId: north.id, toPlaceId: van.id }] };
    await storekeeper.post('/api/stock/posts', take).expect(201);
    expect(await cautions()).toEqual([]);
    const { body } = await send([{ itemId: acid.id, quantity: '5' }], { toPlaceId: van.id }).expect(201);
    expect(await cautions()).toEqual([
      'Citric acid and Sodium hypochlorite must not meet: chlorine gas, possibly violent. Carry them in separate bays, each in its own tray.',
    ]);
    await arrive(body.id, [{ itemId: acid.id, quantity: '5' }]).expect(200);
    expect(await cautions()).toHaveLength(1);
    await storekeeper.get(`/api/places/${randomUUID()}/cautions`).expect(404);
  });

  test.each([
    [{ toPlaceId: () => north.id }, '#/toPlaceId'],
    [{ toPlaceId: () => randomUUID() }, '#/toPlaceId'],
    [{ lines: () => [{ itemId: seal.id, quantity: '0' }] }, '#/lines/0/quantity'],
    [{ lines: () => [] }, '#/lines'],
    [{ at: () => '2027-01-01T00:00:00Z' }, '#/at'],
  ])('%# is refused', async (change, pointer) => {
    const more = Object.fromEntries(Object.entries(change).map(([field, make_]) => [field, make_()]));
    expect(pointersOf((await send([came('1')], more).expect(400)).body)).toEqual([pointer]);
  });

  test('cannot be taken back by itself, and what is on the way is taken by nobody', async () => {
    const { id } = await sent('1', { lot: null });
    const back = await storekeeper.post(`/api/stock/posts/${id}/reverse`, { id: randomUUID(), at: AT, note: 'no' }).expect(409);
    expect(back.body.title).toContain('transfer');
    const transit = (await storekeeper.get('/api/places?kind=transit').expect(200)).body.items[0];
    const take = { id: randomUUID(), kind: 'scrap', at: AT, note: 'x', moves: [{ itemId: seal.id, quantity: '1', fromPlaceId: transit.id }] };
    expect(pointersOf((await storekeeper.post('/api/stock/posts', take).expect(400)).body)).toEqual(['#/moves/0/fromPlaceId']);
    await storekeeper.post('/api/places', { name: 'Another', kind: 'transit' }).expect(400);
    await storekeeper.get(`/api/transfers/${randomUUID()}`).expect(404);
    expect(await faults()).toEqual([]);
  });
});
