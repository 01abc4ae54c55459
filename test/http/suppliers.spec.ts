import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { endRecord, type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
let app: NestFastifyApplication;
let manager: Api;
let storekeeper: Api;
let technician: Api;
let client: Api;
let supplier: Made;
let drum: Made;
let seal: Made;
let offer: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  [manager, storekeeper, technician] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper'), await signInAs(app, 'technician')];
  const [skid] = await makeSkids(app, 'Alder', 1);
  client = await signInAs(app, 'client', { clientId: skid?.clientId ?? '' });
  seal = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' });
  drum = await make(storekeeper, '/api/items', { code: 'HYPO', name: 'Sodium hypochlorite 12.5 %', kind: 'chemical', unit: 'LTR' });
});
afterAll(() => app?.close());

const send = (path: string, text: string) => storekeeper.call('post', path).attach('file', Buffer.from(text), 'table.csv');
const table = async (path: string): Promise<string> => (await storekeeper.get(path).expect(200)).text;

describe('suppliers', () => {
  test('are entered, edited and ended', async () => {
    supplier = await make(storekeeper, '/api/suppliers', {
      name: 'Brook Seals',
      currency: 'EUR',
      email: 'orders@brook.example',
      leadDays: 10,
      minimumOrder: '150',
      orderWeekday: 3,
    });
    expect(supplier).toMatchObject({ contacts: '', minimumOrder: '150', orderCost: null, version: 1, endedOn: null });
    expect((await storekeeper.patch(`/api/suppliers/${supplier.id}`, 1, { orderCost: '35.5', email: null }).expect(200)).body).toMatchObject({
      orderCost: '35.5',
      email: null,
      version: 2,
    });
    await storekeeper.post('/api/suppliers', { name: 'Brook Seals', currency: 'EUR' }).expect(409);
    const gone = await make(storekeeper, '/api/suppliers', { name: 'Gone Ltd', currency: 'GBP' });
    await endRecord(storekeeper, '/api/suppliers', gone, '2026-11-24');
    expect((await manager.get('/api/suppliers').expect(200)).body.items.map(({ name }: { name: string }) => name)).toEqual(['Brook Seals']);
    await technician.get('/api/suppliers').expect(403);
    await client.get('/api/suppliers').expect(403);
  });

  test.each([
    [{ name: 'X', currency: 'euro' }, '#/currency'],
    [{ name: 'X', currency: 'EUR', email: 'nobody' }, '#/email'],
    [{ name: 'X', currency: 'EUR', minimumOrder: '-1' }, '#/minimumOrder'],
    [{ name: 'X', currency: 'EUR', minimumOrder: '1.00001' }, '#/minimumOrder'],
    [{ name: 'X', currency: 'EUR', leadDays: 731 }, '#/leadDays'],
    [{ name: 'X', currency: 'EUR', orderWeekday: 0 }, '#/orderWeekday'],
  ])('%j is none', async (body, pointer) => {
    expect(pointersOf((await manager.post('/api/suppliers', body).expect(400)).body)).toEqual([pointer]);
  });
});

describe('offers', () => {
  test('say in which units and at what price an item is sold', async () => {
    const { id: supplierId } = supplier;
    offer = await make(storekeeper, '/api/offers', { itemId: drum.id, supplierId, purchaseUnit: 'XIH', unitsPerPurchase: '60', price: '84.5', pack: '2' });
    expect(offer).toMatchObject({
      itemCode: 'HYPO',
      useUnit: 'LTR',
      supplierName: 'Brook Seals',
      currency: 'EUR',
      price: '84.5',
      leadDays: 10,
      ownLeadDays: false,
      pack: '2',
    });
    expect(await make(storekeeper, '/api/offers', { itemId: seal.id, supplierId, purchaseUnit: 'DZN' })).toMatchObject({ unitsPerPurchase: '12', price: null });
    await storekeeper.post('/api/offers', { itemId: seal.id, supplierId, purchaseUnit: 'C62' }).expect(409);
    expect((await storekeeper.get(`/api/offers?itemId=${seal.id}`).expect(200)).body.items).toHaveLength(1);
    await technician.get('/api/offers').expect(403);
  });

  test('keep the prices of before and after', async () => {
    await storekeeper.patch(`/api/offers/${offer.id}`, 1, { price: '90', priceFrom: '2026-12-01' }).expect(200);
    const { body } = await storekeeper.patch(`/api/offers/${offer.id}`, 2, { leadDays: 21 }).expect(200);
    expect(body).toMatchObject({ price: '84.5', leadDays: 21, ownLeadDays: true, version: 3 });
    expect(body.prices.map(({ fromDay, price }: Record<string, string>) => [fromDay, price])).toEqual([
      ['2026-12-01', '90'],
      ['2026-11-25', '84.5'],
    ]);
  });

  test.each([
    [{ purchaseUnit: 'XIH' }, '#/unitsPerPurchase'],
    [{ purchaseUnit: 'MTQ', unitsPerPurchase: '1' }, '#/unitsPerPurchase'],
    [{ purchaseUnit: 'GL', unitsPerPurchase: '1' }, '#/purchaseUnit'],
    [{ purchaseUnit: 'LTR', pack: '0' }, '#/pack'],
    [{ purchaseUnit: 'LTR', priceFrom: '2026-11-01' }, '#/price'],
    [{ purchaseUnit: 'LTR', supplierId: NOBODY }, '#/supplierId'],
    [{ purchaseUnit: 'LTR', itemId: NOBODY }, '#/itemId'],
  ])('%j is none', async (body, pointer) => {
    const other = await make(storekeeper, '/api/suppliers', { name: randomUUID(), currency: 'EUR' });
    const refused = await storekeeper.post('/api/offers', { itemId: drum.id, supplierId: other.id, ...body }).expect(400);
    expect(pointersOf(refused.body)).toEqual([pointer]);
    await endRecord(storekeeper, '/api/suppliers', other, '2026-11-24');
  });

  test('that ended are taken up again', async () => {
    const now = (await storekeeper.get(`/api/offers/${offer.id}`)).body;
    const { version } = now;
    await endRecord(storekeeper, '/api/offers', now, '2026-11-24').expect(204);
    await storekeeper.patch(`/api/offers/${offer.id}`, version + 1, { rank: 2 }).expect(400);
    const again = await make(storekeeper, '/api/offers', { itemId: drum.id, supplierId: supplier.id, purchaseUnit: 'XIH', unitsPerPurchase: '60' });
    expect(again).toMatchObject({ id: offer.id, endedOn: null, price: '84.5' });
  });
});

describe('what buying and keeping an item takes', () => {
  const path = () => `/api/items/${drum.id}/supply`;

  test('is entered as a whole; before that its substance tells what is usual', async () => {
    const before = (await technician.get(path()).expect(200)).body;
    expect(before).toMatchObject({ version: 0, criticality: 'can wait', hazards: [], hazardNow: null });
    expect(before.usualHazards.map(({ unNumber }: { unNumber: string }) => unNumber)).toEqual(['1791', '1791']);
    expect(before.mustNotMeet.join()).toContain('acid: chlorine gas');
    const { usualHazards: hazards } = before;
    const after = await storekeeper
      .call('put', path())
      .set('if-match', '"0"')
      .send({ criticality: 'stops the skid', shelfLifeDays: 42, strengthPercent: '12.5', hazards, alternatives: [{ itemId: seal.id }] });
    expect(after.status).toBe(200);
    expect(after.body).toMatchObject({
      version: 1,
      strengthPercent: '12.5',
      hazardNow: { signalWord: 'Danger', fromPercent: '10' },
      usualHazards: [],
      alternatives: [{ code: 'SEAL-25' }],
    });
    await storekeeper.call('put', path()).set('if-match', '"0"').send({ criticality: 'can wait' }).expect(412);
    await technician.call('put', path()).set('if-match', '"1"').send({ criticality: 'can wait' }).expect(403);
    await client.get(path()).expect(403);
  });

  test.each([
    [{ supersededById: NOBODY }, '#/supersededById'],
    [{ alternatives: [{ itemId: NOBODY }] }, '#/alternatives/0/itemId'],
    [
      {
        hazards: [
          { fromPercent: '0', signalWord: '', statements: [] },
          { fromPercent: '5', signalWord: '', statements: [] },
        ],
      },
      '#/hazards',
    ],
    [{ hazards: [{ fromPercent: '0', signalWord: '', statements: ['H99'] }] }, '#/hazards/0/statements'],
    [{ contentAmount: '5' }, '#/contentUnit'],
    [{ shelfLifeDays: 0 }, '#/shelfLifeDays'],
  ])('%j is refused', async (body, pointer) => {
    const refused = await storekeeper
      .call('put', path())
      .set('if-match', '"1"')
      .send({ criticality: 'can wait', ...body })
      .expect(400);
    expect(pointersOf(refused.body)).toEqual([pointer]);
  });

  test('two items do not supersede each other', async () => {
    await storekeeper.call('put', `/api/items/${seal.id}/supply`).set('if-match', '"0"').send({ criticality: 'can wait', supersededById: drum.id }).expect(200);
    const refused = await storekeeper.call('put', path()).set('if-match', '"1"').send({ criticality: 'can wait', supersededById: seal.id }).expect(400);
    expect(pointersOf(refused.body)).toEqual(['#/supersededById']);
  });
});

describe('bar codes', () => {
  const scan = async (text: string) => (await technician.get(`/api/bar-codes/scan?text=${encodeURIComponent(text)}`).expect(200)).body;

  test('name an item, and a scan says lot and expiry', async () => {
    const code = await make(storekeeper, '/api/bar-codes', { code: '416000336108', itemId: drum.id, quantity: '60' });
    expect(code).toMatchObject({ code: '00416000336108', quantity: '60', by: 'A storekeeper' });
    expect(await scan(']C10100416000336108172702001' + '0A7')).toMatchObject({
      item: { itemCode: 'HYPO', quantity: '60' },
      lot: 'A7',
      expiresOn: '2027-02-28',
    });
    expect(await scan('seal-25')).toMatchObject({ item: { itemCode: 'SEAL-25', quantity: '1' } });
    expect(await scan('02345673')).toMatchObject({ code: '00000002345673', item: null });
    expect((await technician.get('/api/bar-codes/scan?text=12345673').expect(400)).body.title).toContain('check digit');
  });

  test('a code is of one item, however it is written', async () => {
    const refused = await storekeeper.post('/api/bar-codes', { code: '(01)00416000336108', itemId: seal.id }).expect(409);
    expect(refused.body.title).toContain('HYPO');
    expect(pointersOf((await storekeeper.post('/api/bar-codes', { code: '416000336109', itemId: seal.id }).expect(400)).body)).toEqual(['#/code']);
    const own = await make(storekeeper, '/api/bar-codes', { code: 'OURS-1', itemId: seal.id });
    await storekeeper.delete(`/api/bar-codes/${own.id}`).expect(204);
    await storekeeper.delete(`/api/bar-codes/${own.id}`).expect(404);
  });
});

describe('settings and rates', () => {
  test('a manager says from when on a manager approves', async () => {
    expect((await storekeeper.get('/api/store-settings').expect(200)).body).toEqual({ reckoningCurrency: 'EUR', managerApprovesAbove: null, version: 1 });
    const asked = { reckoningCurrency: 'EUR', managerApprovesAbove: '1000' };
    await storekeeper.call('put', '/api/store-settings').set('if-match', '"1"').send(asked).expect(403);
    expect((await manager.call('put', '/api/store-settings').set('if-match', '"1"').send(asked).expect(200)).body).toMatchObject({
      managerApprovesAbove: '1000',
      version: 2,
    });
  });

  test('rates hold from their day on; costs that were reckoned keep their currency', async () => {
    await storekeeper.post('/api/currency-rates', { currency: 'GBP', fromDay: '2026-11-01', rate: '1.15' }).expect(200);
    await storekeeper.post('/api/currency-rates', { currency: 'GBP', fromDay: '2026-11-01', rate: '1.16' }).expect(200);
    expect((await storekeeper.get('/api/currency-rates').expect(200)).body.items).toEqual([
      expect.objectContaining({ currency: 'GBP', rate: '1.16', fromDay: '2026-11-01' }),
    ]);
    expect(pointersOf((await storekeeper.post('/api/currency-rates', { currency: 'EUR', fromDay: '2026-11-01', rate: '1' }).expect(400)).body)).toEqual([
      '#/currency',
    ]);
    await manager.call('put', '/api/store-settings').set('if-match', '"2"').send({ reckoningCurrency: 'USD' }).expect(409);
  });
});

describe('tables', () => {
  test.each(['suppliers', 'offers', 'items', 'bar-codes'])('of %s go out and come back unchanged', async (what) => {
    const text = await table(`/api/${what}.csv`);
    const rows = text.trim().split('\r\n').length - 1;
    expect(rows).toBeGreaterThan(0);
    expect((await send(`/api/${what}/table`, text).expect(200)).body).toMatchObject({ rows, made: 0, changed: 0, same: rows, wrong: 0, problems: [] });
  });

  test('make and change suppliers, of the columns that they have', async () => {
    const text = 'Name;Currency;Minimum order\nBrook Seals;EUR;175,5\nAsh Pumps;GBP;\n';
    const dry = await send('/api/suppliers/table?dryRun=true', text).expect(200);
    expect(dry.body).toMatchObject({ dryRun: true, rows: 2, made: 1, changed: 1, same: 0 });
    expect(await table('/api/suppliers.csv')).not.toContain('Ash Pumps');
    expect((await send('/api/suppliers/table', text).expect(200)).body).toMatchObject({ dryRun: false, made: 1, changed: 1 });
    expect((await storekeeper.get(`/api/suppliers/${supplier.id}`)).body).toMatchObject({ minimumOrder: '175.5', leadDays: 10, orderCost: '35.5' });
    expect((await send('/api/suppliers/table', text).expect(200)).body).toMatchObject({ made: 0, changed: 0, same: 2 });
  });

  test('make offers with prices, and say which cells cannot be', async () => {
    const text =
      'item,supplier,purchase unit,units per purchase,price\nseal-25,Ash Pumps,DZN,,3.5\nHYPO,Ash Pumps,MTQ,1,\nNONE,Ash Pumps,C62,,\nHYPO,Nobody,XIH,,1\nHYPO,Ash Pumps,KL,,1\nSEAL-25,ash pumps,C62,,1\n';
    const { body } = await send('/api/offers/table', text).expect(422);
    expect(body).toMatchObject({ code: 'store/table-not-complete' });
    expect(pointersOf(body)).toEqual([
      '#/lines/3/units per purchase',
      '#/lines/4/item',
      '#/lines/5/supplier',
      '#/lines/5/units per purchase',
      '#/lines/6/purchase unit',
      '#/lines/7',
    ]);
    expect((await send('/api/offers/table?goodOnly=true', text).expect(200)).body).toMatchObject({ made: 1, changed: 0, wrong: 5 });
    const [made] = (await storekeeper.get('/api/offers?find=Ash').expect(200)).body.items;
    expect(made).toMatchObject({ itemCode: 'SEAL-25', unitsPerPurchase: '12', price: '3.5', currency: 'GBP' });
  });

  test('the unit of an item that has offers stays, and a code stays with its item', async () => {
    expect(pointersOf((await send('/api/items/table', 'code,name,kind,unit\nHYPO,Hypochlorite,chemical,KGM\n').expect(422)).body)).toEqual(['#/lines/2/unit']);
    expect(pointersOf((await send('/api/bar-codes/table', 'code,item\n416000336108,SEAL-25\n').expect(422)).body)).toEqual(['#/lines/2/code']);
  });

  test.each([
    ['', 'empty'],
    ['name\nX\n', 'currency'],
    ['name,currency\n"X,EUR\n', 'cannot be read'],
  ])('%j is none', async (text, why) => {
    expect((await send('/api/suppliers/table', text).expect(400)).body.title).toContain(why);
    await storekeeper.post('/api/suppliers/table', {}).expect(400);
  });

  test('of 100,000 rows ten are wrong: each is said, and nothing is written until they are mended or left out', async () => {
    const wrong = [5, 1_000, 5_001, 10_000, 20_000, 40_000, 60_000, 80_000, 99_999, 100_001];
    const kindOf = (line: number) => (wrong.includes(line) ? 'gizmo' : 'seal');
    const rows = Array.from({ length: 100_000 }, (_, at) => `N-${at},Seal ${at},${kindOf(at + 2)},C62`);
    const text = `code,name,kind,unit\n${rows.join('\n')}\n`;
    const count = () => app.get(Database).prisma.item.count();
    const before = await count();
    const dry = (await send('/api/items/table?dryRun=true', text).expect(200)).body;
    expect(dry).toMatchObject({ rows: 100_000, made: 99_990, wrong: 10 });
    expect(dry.problems.map(({ line, column, value }: Record<string, unknown>) => [line, column, value])).toEqual(wrong.map((line) => [line, 'kind', 'gizmo']));
    expect(pointersOf((await send('/api/items/table', text).expect(422)).body)).toEqual(wrong.map((line) => `#/lines/${line}/kind`));
    expect(await count()).toBe(before);
    expect((await send('/api/items/table?goodOnly=true', text).expect(200)).body).toMatchObject({ made: 99_990, wrong: 10, changed: 0 });
    expect(await count()).toBe(before + 99_990);
  });
});
