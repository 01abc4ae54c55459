import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { endRecord, type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
const AT = '2026-11-24T10:00:00Z';
let app: NestFastifyApplication;
let manager: Api;
let storekeeper: Api;
let technician: Api;
let technicianId: string;
let siteId: string;
let store: Made;
let van: Made;
let otherVan: Made;
let seal: Made;
let oil: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  const { prisma } = app.get(Database);
  [manager, storekeeper, technician] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper'), await signInAs(app, 'technician')];
  technicianId = (await prisma.person.findFirstOrThrow({ where: { role: 'technician' } })).id;
  siteId = (await makeSkids(app, 'Alder', 1))[0]?.siteId ?? '';
  seal = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' });
  oil = await make(storekeeper, '/api/items', { code: 'OIL', name: 'Oil', kind: 'lubricant', unit: 'LTR' });
});
afterAll(() => app?.close());

const post = (by: Api, kind: string, moves: object[], more: object = {}) => by.post('/api/stock/posts', { id: randomUUID(), kind, at: AT, moves, ...more });
const stock = async (query: string) =>
  (await technician.get(`/api/stock?${query}`).expect(200)).body.items.map(
    (line: Record<string, string>) => `${line.placeName}: ${line.onHand} ${line.itemCode} ${line.lot}`,
  );

describe('places', () => {
  test('are stores, vans of somebody, and places at sites', async () => {
    store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
    van = await make(manager, '/api/places', { name: 'Van 1', kind: 'van', personId: technicianId });
    expect(van).toMatchObject({ kind: 'van', personId: technicianId, personName: 'A technician', siteId: null, version: 1 });
    expect(await make(manager, '/api/places', { name: 'Cabinet', kind: 'site', siteId })).toMatchObject({ siteName: 'Alder site' });
    expect((await technician.get('/api/places?kind=van').expect(200)).body.items).toEqual([van]);
    expect((await technician.get(`/api/places/${van.id}`).expect(200)).body).toEqual(van);
    expect((await manager.patch(`/api/places/${store.id}`, 1, { note: 'Hall 2' }).expect(200)).body).toMatchObject({ note: 'Hall 2', version: 2 });
    await technician.post('/api/places', { name: 'X', kind: 'store' }).expect(403);
  });

  test('a van is somebody’s of the staff, and a person has one', async () => {
    const { prisma } = app.get(Database);
    const { id: second } = await prisma.person.create({ data: { name: 'Second', email: 'second@example.org', role: 'technician' } });
    otherVan = await make(manager, '/api/places', { name: 'Van 2', kind: 'van', personId: second });
    const again = await manager.post('/api/places', { name: 'Van 3', kind: 'van', personId: technicianId }).expect(409);
    expect(again.body.title).toContain('Van 1');
    await manager.patch(`/api/places/${otherVan.id}`, 1, { personId: technicianId }).expect(409);
    await manager.post('/api/places', { name: 'Van 1', kind: 'store' }).expect(409);
  });

  test.each([
    [{ name: 'X', kind: 'van' }, '#/personId'],
    [{ name: 'X', kind: 'van', personId: NOBODY }, '#/personId'],
    [{ name: 'X', kind: 'site' }, '#/siteId'],
    [{ name: 'X', kind: 'site', siteId: NOBODY }, '#/siteId'],
    [{ name: 'X', kind: 'store', personId: NOBODY }, '#/personId'],
    [{ name: 'X', kind: 'shed' }, '#/kind'],
    [{ name: ' ', kind: 'store' }, '#/name'],
  ])('%j is none', async (body, pointer) => {
    expect(pointersOf((await manager.post('/api/places', body).expect(400)).body)).toEqual([pointer]);
  });
});

describe('stock', () => {
  test('is received, carried along in the van and brought back', async () => {
    await post(storekeeper, 'receive', [
      { itemId: seal.id, quantity: '10', toPlaceId: store.id, lot: 'L1' },
      { itemId: oil.id, quantity: '20.5', toPlaceId: store.id },
    ]).expect(201);
    await post(technician, 'transfer', [
      { itemId: seal.id, quantity: '4', fromPlaceId: store.id, toPlaceId: van.id },
      { itemId: oil.id, quantity: '2.25', fromPlaceId: store.id, toPlaceId: van.id },
    ]).expect(201);
    await post(technician, 'return', [{ itemId: seal.id, quantity: '1', fromPlaceId: van.id, toPlaceId: store.id }]).expect(201);
    expect(await stock('')).toEqual(['Main store: 18.25 OIL null', 'Main store: 7 SEAL-25 L1', 'Van 1: 2.25 OIL null', 'Van 1: 3 SEAL-25 L1']);
    expect(await stock(`placeId=${van.id}&itemId=${oil.id}`)).toEqual(['Van 1: 2.25 OIL null']);
    expect(await stock('find=seal')).toEqual(['Main store: 7 SEAL-25 L1', 'Van 1: 3 SEAL-25 L1']);
    const first = (await manager.get('/api/stock?limit=3')).body;
    expect((await manager.get(`/api/stock?limit=3&cursor=${first.next}`)).body).toMatchObject({
      items: [{ itemCode: 'SEAL-25', placeName: 'Van 1' }],
      next: null,
    });
    expect(await stock('at=2026-11-24T09:59:59Z')).toEqual([]);
  });

  test('is posted once: the same id gives the same answer, and refuses another content', async () => {
    const body = { id: randomUUID(), kind: 'receive', at: AT, moves: [{ itemId: seal.id, quantity: '2', toPlaceId: store.id, lot: 'L2' }] };
    const [first, ...again] = await Promise.all([1, 2, 3].map(() => storekeeper.post('/api/stock/posts', body).expect(201)));
    for (const { body: answer } of again) expect(answer).toEqual(first?.body);
    expect((await manager.get(`/api/stock/posts/${body.id}`).expect(200)).body).toEqual(first?.body);
    const other = await storekeeper.post('/api/stock/posts', { ...body, at: '2026-11-24T11:00:00Z' }).expect(422);
    expect(other.body.code).toBe('store/post-id-used');
    expect(await stock(`placeId=${store.id}&itemId=${seal.id}`)).toEqual(['Main store: 7 SEAL-25 L1', 'Main store: 2 SEAL-25 L2']);
  });

  test('never goes below zero, unless the count was wrong, which is then entered', async () => {
    const move = { itemId: seal.id, quantity: '5', fromPlaceId: van.id };
    const short = await post(technician, 'scrap', [move], { note: 'dropped' }).expect(422);
    expect(short.body).toMatchObject({
      code: 'store/not-on-hand',
      errors: [{ pointer: '#/moves/0/quantity', message: expect.stringContaining('Van 1 holds 3 of SEAL-25, and 5 are asked for') }],
    });
    const { body } = await post(technician, 'scrap', [move], { note: 'dropped', countWasWrong: true }).expect(201);
    expect(body.moves.map(({ quantity, lot, correction }: Record<string, unknown>) => [quantity, lot, correction])).toEqual([
      ['3', 'L1', false],
      ['2', null, true],
      ['2', null, false],
    ]);
    expect(await stock(`placeId=${van.id}&itemId=${seal.id}`)).toEqual([]);
  });

  test('is told with all its moves, the latest first', async () => {
    const { body } = await storekeeper.get(`/api/stock/moves?placeId=${van.id}&itemId=${seal.id}&limit=4`).expect(200);
    expect(body.items.map(({ kind, quantity, fromPlaceName, toPlaceName }: Record<string, string>) => [kind, quantity, fromPlaceName, toPlaceName])).toEqual([
      ['scrap', '2', 'Van 1', null],
      ['scrap', '2', null, 'Van 1'],
      ['scrap', '3', 'Van 1', null],
      ['return', '1', 'Van 1', 'Main store'],
    ]);
    const rest = (await storekeeper.get(`/api/stock/moves?placeId=${van.id}&itemId=${seal.id}&cursor=${body.next}`).expect(200)).body.items;
    expect(rest).toMatchObject([{ kind: 'transfer', quantity: '4', by: 'A technician', lot: 'L1', at: '2026-11-24T10:00:00.000Z' }]);
    expect((await storekeeper.get('/api/stock/moves?kind=scrap&find=dropped')).body.items).toHaveLength(3);
    expect((await storekeeper.get(`/api/stock/moves?from=2026-11-24T10:00:01Z&jobId=${NOBODY}`)).body.items).toEqual([]);
    await storekeeper.get(`/api/stock/moves?cursor=${Buffer.from('["x"]').toString('base64url')}`).expect(200);
  });

  test('a post is taken back once, with the reason', async () => {
    const { body: received } = await post(storekeeper, 'receive', [{ itemId: oil.id, quantity: '5', toPlaceId: store.id, lot: 'O1' }]).expect(201);
    const back = { id: randomUUID(), at: AT, note: 'typed twice' };
    const { body } = await storekeeper.post(`/api/stock/posts/${received.id}/reverse`, back).expect(201);
    expect(body).toMatchObject({
      kind: 'reverse',
      reverses: received.id,
      note: 'typed twice',
      moves: [{ quantity: '5', fromPlaceName: 'Main store', lot: 'O1' }],
    });
    expect((await storekeeper.post(`/api/stock/posts/${received.id}/reverse`, back).expect(201)).body).toEqual(body);
    await storekeeper.post(`/api/stock/posts/${received.id}/reverse`, { ...back, id: randomUUID() }).expect(409);
    await technician.post(`/api/stock/posts/${received.id}/reverse`, { ...back, id: randomUUID() }).expect(403);
    await storekeeper.post(`/api/stock/posts/${NOBODY}/reverse`, { ...back, id: randomUUID() }).expect(404);
    expect(await stock('find=O1')).toEqual([]);
  });

  test('of others is not a technician’s to move', async () => {
    const move = { itemId: oil.id, quantity: '1', fromPlaceId: store.id, toPlaceId: otherVan.id };
    const { body } = await post(technician, 'transfer', [move]).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/moves/0/toPlaceId', message: expect.stringContaining('Van 1') }]);
    await post(storekeeper, 'transfer', [move]).expect(201);
    const newcomer = await signInAs(app, 'technician');
    expect((await post(newcomer, 'transfer', [move]).expect(400)).body.title).toContain('no van');
  });

  test.each<[string, string, (ids: { store: string; seal: string }) => object, string]>([
    ['no move', 'receive', () => ({ moves: [] }), '#/moves'],
    ['a move that is none', 'receive', () => ({ moves: [null] }), '#/moves'],
    ['a list in place of a move', 'receive', () => ({ moves: [[]] }), '#/moves'],
    ['a quantity that is no number', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '1,5', toPlaceId: ids.store }] }), '#/moves/0/quantity'],
    ['nothing at all', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '0.000', toPlaceId: ids.store }] }), '#/moves/0/quantity'],
    ['more decimals than are kept', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '0.0000001', toPlaceId: ids.store }] }), '#/moves/0/quantity'],
    ['an item that is none', 'receive', (ids) => ({ moves: [{ itemId: NOBODY, quantity: '1', toPlaceId: ids.store }] }), '#/moves/0/itemId'],
    ['a part that is none', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, partId: NOBODY, quantity: '1', toPlaceId: ids.store }] }), '#/moves/0/partId'],
    ['a place that is none', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '1', toPlaceId: NOBODY }] }), '#/moves/0/toPlaceId'],
    ['a receipt from a place', 'receive', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '1', fromPlaceId: ids.store }] }), '#/moves/0/toPlaceId'],
    ['a use by hand', 'use', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '1', fromPlaceId: ids.store }] }), '#/kind'],
    ['a correction that says no reason', 'correct', (ids) => ({ moves: [{ itemId: ids.seal, quantity: '1', toPlaceId: ids.store }] }), '#/note'],
    ['what is still to come', 'receive', (ids) => ({ at: '2026-11-26T10:00:00Z', moves: [{ itemId: ids.seal, quantity: '1', toPlaceId: ids.store }] }), '#/at'],
    [
      'a moment without its offset',
      'receive',
      (ids) => ({ at: '2026-11-24T10:00:00', moves: [{ itemId: ids.seal, quantity: '1', toPlaceId: ids.store }] }),
      '#/at',
    ],
  ])('%s is refused', async (_, kind, body, pointer) => {
    const answer = await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind, at: AT, ...body({ store: store.id, seal: seal.id }) }).expect(400);
    expect(pointersOf(answer.body)).toContain(pointer);
  });

  test('a place ends when nothing lies there any more, and takes nothing then', async () => {
    const refused = await endRecord(manager, '/api/places', otherVan).expect(409);
    expect(refused.body.title).toContain('Stock still lies there');
    await post(storekeeper, 'transfer', [{ itemId: oil.id, quantity: '1', fromPlaceId: otherVan.id, toPlaceId: store.id }]).expect(201);
    await endRecord(manager, '/api/places', otherVan).expect(204);
    const { body } = await post(storekeeper, 'receive', [{ itemId: oil.id, quantity: '1', toPlaceId: otherVan.id }]).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/moves/0/toPlaceId', message: expect.stringContaining('Van 2 has ended') }]);
  });
});
