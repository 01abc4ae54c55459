import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const AT = '2026-11-24T10:00:00Z';
let app: NestFastifyApplication;
let storekeeper: Api;
let skid: SmallSkid;
let store: Made;
let site: Made;
let quarantine: Made;
let module_: Made;
let acid: Made;
let pump: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  storekeeper = await signInAs(app, 'storekeeper');
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  site = await make(storekeeper, '/api/places', { name: 'Cabinet', kind: 'site', siteId: skid.siteId });
  quarantine = await make(storekeeper, '/api/places', { name: 'Quarantine', kind: 'quarantine' });
  module_ = await make(storekeeper, '/api/items', { code: 'MOD', name: 'Module', kind: 'module' });
  acid = await make(storekeeper, '/api/items', { code: 'ACID', name: 'Acid', kind: 'chemical', unit: 'LTR' });
  pump = await make(storekeeper, '/api/items', { code: 'PUMP', name: 'Pump', kind: 'pump' });
});
afterAll(() => app?.close());

const post = (kind: string, moves: object[], more: object = {}) => storekeeper.post('/api/stock/posts', { id: randomUUID(), kind, at: AT, moves, ...more });
const receive = (item: Made, quantity: string, more: object = {}) => post('receive', [{ itemId: item.id, quantity, toPlaceId: store.id, ...more }]);
const lots = async (query = '') => (await storekeeper.get(`/api/lots?${query}`).expect(200)).body.items;
const stock = async (query: string) => (await storekeeper.get(`/api/stock?${query}`).expect(200)).body.items;
const faults = () =>
  app
    .get(Database)
    .pool.query('SELECT * FROM stock_fault')
    .then(({ rows }) => rows);

describe('lots', () => {
  test('come with their expiry, and what expires first is taken first', async () => {
    await receive(acid, '10', { lot: 'LATE', expiresOn: '2027-06-30' }).expect(201);
    await receive(acid, '10', { lot: 'SOON', expiresOn: '2026-12-31' }).expect(201);
    await receive(acid, '10', { lot: 'OLD', expiresOn: '2026-11-23' }).expect(201);
    const { body } = await post('transfer', [{ itemId: acid.id, quantity: '12', fromPlaceId: store.id, toPlaceId: site.id }]).expect(201);
    expect(body.moves.map(({ lot, quantity }: Record<string, string>) => `${quantity} ${lot}`)).toEqual(['10 SOON', '2 LATE']);
    const other = await receive(acid, '1', { lot: 'LATE', expiresOn: '2027-07-01' }).expect(400);
    expect(other.body.errors).toMatchObject([{ pointer: '#/moves/0/expiresOn', message: expect.stringContaining('2027-06-30') }]);
    expect(pointersOf((await receive(acid, '1', { expiresOn: '2027-07-01' }).expect(400)).body)).toEqual(['#/moves/0/lot']);
  });

  test('past their expiry are refused, unless somebody says why, which stays with the post', async () => {
    const take = [{ itemId: acid.id, quantity: '9', fromPlaceId: store.id, toPlaceId: site.id, lot: 'OLD' }];
    const refused = await post('transfer', take).expect(422);
    expect(refused.body).toMatchObject({ code: 'store/not-on-hand' });
    expect(refused.body.errors[0].message).toContain('10 past the expiry (say why it may be taken: expiredReason)');
    const { body } = await post('transfer', take, { expiredReason: 'Assayed today at full strength' }).expect(201);
    expect(body).toMatchObject({ expiredReason: 'Assayed today at full strength', moves: [{ lot: 'OLD' }] });
    await post('transfer', [{ itemId: acid.id, quantity: '1', fromPlaceId: store.id, toPlaceId: quarantine.id, lot: 'OLD' }]).expect(201);
  });

  test('are consumed at a site, and nowhere else', async () => {
    await post('consume', [{ itemId: acid.id, quantity: '1', fromPlaceId: site.id }]).expect(201);
    expect(pointersOf((await post('consume', [{ itemId: acid.id, quantity: '1', fromPlaceId: store.id }]).expect(400)).body)).toEqual([
      '#/moves/0/fromPlaceId',
    ]);
    const held = await post('consume', [{ itemId: acid.id, quantity: '1', fromPlaceId: quarantine.id }], { expiredReason: 'x' }).expect(400);
    expect(held.body.errors[0].message).toContain('quarantine');
  });

  test('that are held are taken by nobody, whatever the reason', async () => {
    const [late] = await lots('find=LATE');
    await storekeeper.patch(`/api/lots/${late.id}`, late.version, { held: 'Label does not fit' }).expect(200);
    const take = [{ itemId: acid.id, quantity: '1', fromPlaceId: store.id, toPlaceId: site.id, lot: 'LATE' }];
    expect((await post('transfer', take, { expiredReason: 'x' }).expect(422)).body.errors[0].message).toContain('of lots that are held');
    await storekeeper.patch(`/api/lots/${late.id}`, late.version, { held: '' }).expect(412);
    await storekeeper.patch(`/api/lots/${late.id}`, late.version + 1, { held: '' }).expect(200);
    await post('transfer', take).expect(201);
  });

  test('in preservative say by when they must be preserved anew, and are asked for first', async () => {
    await storekeeper.put(`/api/items/${module_.id}/keeping`, { preserveDays: 30 }).expect(200);
    await receive(module_, '4', { lot: 'M1' }).expect(201);
    const due = await lots('by=2026-12-31');
    expect(due.map(({ code, preserveBy, expiresOn, onHand, places }: Record<string, unknown>) => [code, preserveBy ?? expiresOn, onHand, places])).toEqual([
      ['OLD', '2026-11-23', '10', ['Cabinet', 'Quarantine']],
      ['M1', '2026-12-24', '4', ['Main store']],
      ['SOON', '2026-12-31', '9', ['Cabinet']],
    ]);
    const m1 = due[1];
    const { body } = await storekeeper.post(`/api/lots/${m1.id}/preserved`, { on: '2026-11-25' }).expect(200);
    expect(body).toMatchObject({ preservedOn: '2026-11-25', preserveBy: '2026-12-25' });
    expect(pointersOf((await storekeeper.post(`/api/lots/${m1.id}/preserved`, { on: '2026-12-25' }).expect(400)).body)).toEqual(['#/on']);
    const [late] = await lots('find=LATE');
    expect(pointersOf((await storekeeper.post(`/api/lots/${late.id}/preserved`, { on: '2026-11-25' }).expect(400)).body)).toEqual(['#/by']);
    await storekeeper.get(`/api/lots/${randomUUID()}`).expect(404);
  });
});

describe('what others own', () => {
  test('lies apart, is worth nothing to us and is taken after ours', async () => {
    const supplier = await make(storekeeper, '/api/suppliers', { name: 'Pumps Ltd', currency: 'EUR' });
    await receive(pump, '2', { owner: 'supplier', ownerId: supplier.id }).expect(201);
    await receive(pump, '1', { owner: 'client', ownerId: skid.clientId }).expect(201);
    await receive(pump, '1', { unitCost: '800' }).expect(201);
    expect((await stock(`itemId=${pump.id}`)).map(({ onHand, owner, ownerName }: Record<string, string>) => [onHand, owner, ownerName])).toEqual([
      ['2', 'supplier', 'Pumps Ltd'],
      ['1', 'client', expect.any(String)],
      ['1', 'us', null],
    ]);
    const { body } = await post('transfer', [{ itemId: pump.id, quantity: '2', fromPlaceId: store.id, toPlaceId: site.id }]).expect(201);
    expect(body.moves.map(({ owner }: Record<string, string>) => owner)).toEqual(['us', 'supplier']);
    const refused = await post('transfer', [{ itemId: pump.id, quantity: '2', fromPlaceId: store.id, toPlaceId: site.id }]).expect(422);
    expect(refused.body.errors[0].message).toContain('1 of other owners (say whose)');
    expect(pointersOf((await receive(pump, '1', { owner: 'supplier', ownerId: randomUUID() }).expect(400)).body)).toEqual(['#/moves/0/ownerId']);
    expect(pointersOf((await receive(pump, '1', { owner: 'us', ownerId: supplier.id }).expect(400)).body)).toEqual(['#/moves/0/ownerId']);
  });

  test('a serial number lies at one place, and is taken by it alone', async () => {
    const { prisma } = app.get(Database);
    const { id: partId } = await prisma.part.create({ data: { itemId: pump.id, serialNumber: 'P-77' } });
    await receive(pump, '1', { partId }).expect(201);
    expect((await stock('find=P-77'))[0]).toMatchObject({ serialNumber: 'P-77', placeName: 'Main store', onHand: '1' });
    expect((await receive(pump, '1', { partId }).expect(400)).body.errors[0]).toMatchObject({
      pointer: '#/moves/0/partId',
      message: expect.stringContaining('lies at Main store by the ledger'),
    });
    expect(
      pointersOf((await post('transfer', [{ itemId: pump.id, partId, quantity: '2', fromPlaceId: store.id, toPlaceId: site.id }]).expect(400)).body),
    ).toEqual(['#/moves/0/quantity']);
    const { body } = await post('transfer', [{ itemId: pump.id, partId, quantity: '1', fromPlaceId: store.id, toPlaceId: site.id }]).expect(201);
    await storekeeper.post(`/api/stock/posts/${body.id}/reverse`, { id: randomUUID(), at: AT, note: 'stays' }).expect(201);
    expect((await stock('find=P-77'))[0]).toMatchObject({ placeName: 'Main store' });
    expect(await faults()).toEqual([]);
  });
});

describe('what stock is worth', () => {
  test('is the moving average of what was paid, and lot by lot what each cost', async () => {
    const oil = await make(storekeeper, '/api/items', { code: 'OIL', name: 'Oil', kind: 'lubricant', unit: 'LTR' });
    const value = async () => (await storekeeper.get(`/api/stock/value?itemId=${oil.id}`).expect(200)).body;
    await receive(oil, '10', { lot: 'O1', unitCost: '2' }).expect(201);
    const { body: second } = await receive(oil, '10', { lot: 'O2', unitCost: '4' }).expect(201);
    expect(await value()).toMatchObject({ currency: 'EUR', items: [{ onHand: '20', average: '3', value: '60', valueByLot: '60' }] });
    const { body: out } = await post('scrap', [{ itemId: oil.id, quantity: '5', fromPlaceId: store.id }], { note: 'spilt' }).expect(201);
    expect(out.moves).toMatchObject([{ lot: 'O1', unitCost: '3' }]);
    expect((await value()).items).toMatchObject([{ onHand: '15', average: '3', value: '45', valueByLot: '50' }]);
    await storekeeper.post(`/api/stock/posts/${second.id}/reverse`, { id: randomUUID(), at: AT, note: 'sent back' }).expect(201);
    expect((await value()).items).toMatchObject([{ onHand: '5', average: '1', valueByLot: '10' }]);
  });

  test('is not known where nobody said what it cost, and the cost is of what comes in', async () => {
    const rag = await make(storekeeper, '/api/items', { code: 'RAG', name: 'Rags', kind: 'consumable' });
    await receive(rag, '3').expect(201);
    expect((await storekeeper.get(`/api/stock/value?itemId=${rag.id}`)).body.items).toMatchObject([{ average: null, value: null, valueByLot: null }]);
    const move = { itemId: rag.id, quantity: '1', fromPlaceId: store.id, toPlaceId: site.id, unitCost: '1' };
    expect(pointersOf((await post('transfer', [move]).expect(400)).body)).toEqual(['#/moves/0/unitCost']);
    expect(pointersOf((await receive(rag, '1', { unitCost: '-1' }).expect(400)).body)).toEqual(['#/moves/0/unitCost']);
    expect(pointersOf((await receive(rag, '-1').expect(400)).body)).toEqual(['#/moves/0/quantity']);
  });
});
