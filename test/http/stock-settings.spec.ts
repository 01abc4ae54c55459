import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { changedItems } from '../../src/store/proposals/changed-items.repository.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const HEAD = 'item,place,service,asked percent,short cost,review days,minimum,maximum,criticality,note';
let app: NestFastifyApplication;
let storekeeper: Api;
let seal: Made;
let store: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  storekeeper = await signInAs(app, 'storekeeper');
  const { id: personId } = await signInByName(app, 'Ada');
  store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  await make(storekeeper, '/api/places', { name: 'Van of Ada', kind: 'van', personId });
  seal = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal', kind: 'seal' });
  await make(storekeeper, '/api/items', { code: 'HYPO', name: 'Hypochlorite', kind: 'chemical', unit: 'LTR' });
});
afterAll(() => app?.close());

const table = async () => (await storekeeper.get('/api/stock-settings.csv').expect(200)).text;
const send = (text: string, how = '') => storekeeper.call('post', `/api/stock-settings/table${how}`).attach('file', Buffer.from(text), 'table.csv');
const told = async (path: string) =>
  (await storekeeper.get(path).expect(200)).body.items.map(
    ({ itemCode, placeName, minimum, asked }: Record<string, string | number | null>) => `${itemCode} at ${placeName}: ${minimum}, ${asked}`,
  );

describe('how items are kept at places', () => {
  test('is listed once somebody said it, by item and place', async () => {
    expect(await table()).toBe(`${HEAD}\r\n`);
    const path = `/api/reorder/items/${seal.id}/places/${store.id}/setting`;
    await storekeeper.call('put', path).set('if-match', '"0"').send({ minimum: '2', maximum: '6', asked: 0.975, note: 'Two pumps' }).expect(200);
    expect((await storekeeper.get(`/api/stock-settings?itemId=${seal.id}`).expect(200)).body.items).toEqual([
      expect.objectContaining({ itemName: 'Seal', placeName: 'Main store', minimum: '2', maximum: '6', asked: 0.975, by: 'A storekeeper', version: 1 }),
    ]);
    expect(await table()).toBe(`${HEAD}\r\nSEAL-25,Main store,,97.5,,,2,6,,Two pumps\r\n`);
  });

  test('is taken as a table: what is there stays, what is left out is not touched, an empty cell is as usual', async () => {
    expect((await send(await table()).expect(200)).body).toMatchObject({ rows: 1, made: 0, changed: 0, same: 1 });
    const text = 'item;place;minimum;asked percent\nseal-25;Main store;;99\nHYPO;Main store;1,5;\nHYPO;Van of Ada;0.5;95.25\n';
    expect((await send(text, '?dryRun=true').expect(200)).body).toMatchObject({ dryRun: true, made: 2, changed: 1, wrong: 0 });
    expect(await told('/api/stock-settings')).toEqual(['SEAL-25 at Main store: 2, 0.975']);
    expect((await send(text).expect(200)).body).toMatchObject({ dryRun: false, made: 2, changed: 1 });
    expect(await told('/api/stock-settings?limit=2')).toEqual(['HYPO at Main store: 1.5, null', 'HYPO at Van of Ada: 0.5, 0.9525']);
    expect(await told('/api/stock-settings?find=seal')).toEqual(['SEAL-25 at Main store: null, 0.99']);
    expect(await table()).toContain('SEAL-25,Main store,,99,,,,6,,Two pumps');
    expect(await changedItems(app.get(Database).prisma, new Date(NOW.getTime() - 1))).toContain(seal.id);
  });

  test.each([
    ['NONE,Main store,,,,,,,,', 'item'],
    ['SEAL-25,Nowhere,,,,,,,,', 'place'],
    ['SEAL-25,Main store,soon,,,,,,,', 'service'],
    ['SEAL-25,Main store,cost,,,,,,,', 'short cost'],
    ['SEAL-25,Main store,cost,90,12,,,,,', 'asked percent'],
    ['SEAL-25,Main store,,101,,,,,,', 'asked percent'],
    ['SEAL-25,Main store,,,,,7,6,,', 'maximum'],
    ['SEAL-25,Main store,,,,400,,,,', 'review days'],
    ['SEAL-25,Main store,,,,,,,urgent,', 'criticality'],
  ])('a row of %s is refused at %s', async (row, column) => {
    expect(pointersOf((await send(`${HEAD}\n${row}\n`).expect(422)).body)).toEqual([`#/lines/2/${column}`]);
  });

  test('is judged with what is on record where a column is left out', async () => {
    expect(pointersOf((await send('item,place,minimum\nSEAL-25,Main store,7\n').expect(422)).body)).toEqual(['#/lines/2/maximum']);
  });
});
