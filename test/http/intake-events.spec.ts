import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { IntakeFacts } from '../../src/intake/index.js';
import type { Api } from '../support/api.js';
import { makePlant, type Plant, signedIn } from '../support/plant.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let plant: Plant;
let technician: Api;

beforeAll(async () => {
  app = await startTestApp();
  plant = await makePlant(app, 'Reed Water');
  technician = await signedIn(app, 'technician');
});
afterAll(() => app?.close());

const rowsIn = async (table: string) => Number((await app.get(Database).pool.query(`SELECT count(*) FROM ${table}`)).rows[0].count);

describe('events', () => {
  test('are kept once', async () => {
    const clean = { kind: 'CIP', at: '2026-05-04T08:00', chemical: 'NaOCl', strengthMgL: 500, contactMinutes: 60 };
    const path = `/api/skids/${plant.skidId}/cleans`;
    expect((await technician.post(path, clean).expect(200)).body).toMatchObject({ kept: 1, known: 0 });
    expect((await technician.post(path, clean).expect(200)).body).toMatchObject({ kept: 0, known: 1 });
    expect((await technician.post(path, { ...clean, strengthMgL: 400 }).expect(200)).body).toMatchObject({ differing: 1, replaced: 0 });
    expect((await technician.post(path, { ...clean, strengthMgL: 400, replaceDiffering: true }).expect(200)).body).toMatchObject({ replaced: 1 });
    expect(await app.get(IntakeFacts).cleansOf(plant.skidId)).toEqual([
      { kind: 'CIP', at: new Date('2026-05-04T06:00:00Z'), chemical: 'NaOCl', strengthMgL: 400, contactMinutes: 60 },
    ]);
  });

  test('of meters: a reading and an exchange', async () => {
    const path = `/api/meters/${plant.meterId}/readings`;
    await technician.post(path, { at: '2026-05-04T08:00Z', value: 8000 }).expect(200);
    await technician.post(path, { kind: 'exchange', at: '2026-05-05T08:00Z', oldFinal: 8010, value: 0 }).expect(200);
    const { body } = await technician.post(path, { kind: 'exchange', at: '2026-05-06T08:00Z', value: 0 }).expect(400);
    expect(body.errors[0].pointer).toBe('#/oldFinal');
    const [meter] = await app.get(IntakeFacts).metersOf(plant.skidId);
    expect(meter?.readings.map(({ kind, value, oldFinal }) => [kind, value, oldFinal])).toEqual([
      ['reading', 8000, null],
      ['exchange', 0, 8010],
    ]);
  });

  test('of tanks may be entered by a storekeeper and by an operator of the site', async () => {
    const storekeeper = await signedIn(app, 'storekeeper');
    const operator = await signedIn(app, 'client', { clientId: plant.clientId, siteId: plant.siteId, mayEnterReadings: true });
    await storekeeper.post(`/api/tanks/${plant.tankId}/dips`, { at: '2026-05-04T08:00Z', levelCm: 62 }).expect(200);
    await operator.post(`/api/tanks/${plant.tankId}/deliveries`, { at: '2026-05-05T08:00Z', volumeL: 200, strengthGL: 150, lot: 'A-7' }).expect(200);
    await operator.post(`/api/skids/${plant.skidId}/cleans`, { kind: 'CIP', at: '2026-05-04T08:00', chemical: 'x' }).expect(403);
    await storekeeper.post(`/api/skids/${plant.skidId}/service-entries`, { at: '2026-05-04T08:00Z', task: 'x' }).expect(403);
    expect(await app.get(IntakeFacts).tankFactsOf([plant.tankId])).toMatchObject([
      { tankId: plant.tankId, dips: [{ levelM: 0.62, readingError: 0.005 }], deliveries: [{ volumeL: 200, strengthGL: 150 }] },
    ]);
  });

  test.each<[string, (of: Plant) => string, object, string]>([
    ['a level above the tank', (of) => `/api/tanks/${of.tankId}/dips`, { at: '2026-05-04T08:00Z', levelM: 62 }, '#/levelM'],
    ['no level', (of) => `/api/tanks/${of.tankId}/dips`, { at: '2026-05-04T08:00Z' }, '#/levelM'],
    ['a day that no calendar has', (of) => `/api/tanks/${of.tankId}/dips`, { at: '2026-02-30T08:00Z', levelM: 0.5 }, '#/at'],
    ['a time in the future', (of) => `/api/tanks/${of.tankId}/dips`, { at: '2099-01-01T08:00Z', levelM: 0.5 }, '#/at'],
    ['a wrong type', (of) => `/api/tanks/${of.tankId}/deliveries`, { at: '2026-05-04T08:00Z', volumeL: '200' }, '#/volumeL'],
    ['an unknown field', (of) => `/api/tanks/${of.tankId}/deliveries`, { at: '2026-05-04T08:00Z', volumeL: 200, litres: 1 }, '#/litres'],
    ['a kind of clean that is none', (of) => `/api/skids/${of.skidId}/cleans`, { at: '2026-05-04T08:00Z', kind: 'BW', chemical: 'x' }, '#/kind'],
    [
      'a position of another skid',
      (of) => `/api/skids/${of.skidId}/service-entries`,
      { at: '2026-05-04T08:00Z', task: 'x', positionId: '0190a0b0-0000-7000-8000-000000000001' },
      '#/positionId',
    ],
    ['a character that cannot be stored', (of) => `/api/skids/${of.skidId}/service-entries`, { at: '2026-05-04T08:00Z', task: 'a\0b' }, '#/task'],
  ])('%s is refused with a pointer, and changes nothing', async (_, path, body, pointer) => {
    const before = await rowsIn('load');
    const answer = await technician
      .post(path(plant), body)
      .expect(400)
      .expect('content-type', /application\/problem\+json/);
    expect(answer.body.errors.map((error: { pointer: string }) => error.pointer)).toContain(pointer);
    expect(await rowsIn('load')).toBe(before);
  });

  test('of unknown skids, meters and tanks are not found', async () => {
    const nobody = '0190a0b0-0000-7000-8000-000000000001';
    await technician.post(`/api/skids/${nobody}/cleans`, { kind: 'CIP', at: '2026-05-04T08:00', chemical: 'x' }).expect(404);
    await technician.post(`/api/meters/${nobody}/readings`, { at: '2026-05-04T08:00', value: 1 }).expect(404);
    await technician.post(`/api/tanks/${nobody}/dips`, { at: '2026-05-04T08:00', levelM: 0.1 }).expect(404);
    await technician.post('/api/tanks/none/dips', { at: '2026-05-04T08:00', levelM: 0.1 }).expect(400);
  });

  test('keep text as it was written', async () => {
    const task = `Robert'); DROP TABLE clean;-- <script>alert("x")</script> Überprüfung 漢字 🚰`;
    await technician.post(`/api/skids/${plant.skidId}/service-entries`, { at: '2026-05-07T08:00', task, note: 'half a pair: \uD83D.' }).expect(200);
    const { body } = await technician.get(`/api/skids/${plant.skidId}/service-log?find=DROP`).expect(200);
    expect(body.items).toMatchObject([{ kind: 'service', what: task, by: 'A technician', note: 'half a pair: \uFFFD.' }]);
  });
});

describe('the service log', () => {
  test('has all kinds in one list, the latest first, page by page', async () => {
    const everything = (await technician.get(`/api/skids/${plant.skidId}/service-log`).expect(200)).body.items;
    expect(everything.map(({ kind }: { kind: string }) => kind)).toEqual(['service', 'exchange', 'clean']);
    const pages = [];
    let path = `/api/skids/${plant.skidId}/service-log?limit=2`;
    for (;;) {
      const { body } = await technician.get(path).expect(200);
      pages.push(...body.items);
      if (body.next === null) break;
      path = `/api/skids/${plant.skidId}/service-log?limit=2&cursor=${body.next}`;
    }
    expect(pages).toEqual(everything);
  });

  test('is seen by its client and by no other', async () => {
    const own = await signedIn(app, 'client', { clientId: plant.clientId });
    expect((await own.get(`/api/skids/${plant.skidId}/service-log`).expect(200)).body.items).toHaveLength(3);
    const other = await makePlant(app, 'Other Works');
    const stranger = await signedIn(app, 'client', { clientId: other.clientId });
    await stranger.get(`/api/skids/${plant.skidId}/service-log`).expect(404);
  });

  test('finds words, in which % and _ are themselves', async () => {
    expect((await technician.get(`/api/skids/${plant.skidId}/service-log?find=naocl`).expect(200)).body.items).toHaveLength(1);
    expect((await technician.get(`/api/skids/${plant.skidId}/service-log?find=%25`).expect(200)).body.items).toHaveLength(0);
    await technician.get(`/api/skids/${plant.skidId}/service-log?cursor=bm9uZQ`).expect(400);
  });
});
