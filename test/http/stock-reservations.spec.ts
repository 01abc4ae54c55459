import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeJob, sheetOf } from '../support/sheets.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

const AT = '2026-11-24T10:00:00Z';
let app: NestFastifyApplication;
let manager: Api;
let storekeeper: Api;
let ada: { api: Api; id: string };
let skid: SmallSkid;
let store: Made;
let van: Made;
let seal: Made;
let oil: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  [manager, storekeeper, ada] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper'), await signInByName(app, 'Ada')];
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  van = await make(manager, '/api/places', { name: 'Van of Ada', kind: 'van', personId: ada.id });
  seal = await make(storekeeper, '/api/items', { code: 'SEAL', name: 'Seal', kind: 'seal' });
  oil = await make(storekeeper, '/api/items', { code: 'OIL', name: 'Oil', kind: 'lubricant', unit: 'LTR' });
  await post('receive', [
    { itemId: seal.id, quantity: '5', toPlaceId: store.id },
    { itemId: seal.id, quantity: '1', toPlaceId: van.id },
    { itemId: oil.id, quantity: '3', toPlaceId: store.id },
  ]);
});
afterAll(() => app?.close());

const post = (kind: string, moves: object[], more: object = {}) =>
  storekeeper.post('/api/stock/posts', { id: randomUUID(), kind, at: AT, moves, ...more }).expect(201);
const available = async (query = '') =>
  (await ada.api.get(`/api/stock/available?${query}`).expect(200)).body.items.map(
    (line: Record<string, string>) => `${line.placeName}: ${line.itemCode} ${line.onHand} - ${line.reserved} = ${line.available}, short ${line.short}`,
  );
const reservations = async (query: string) =>
  (await ada.api.get(`/api/stock/reservations?${query}`).expect(200)).body.items.map(
    (line: Record<string, string>) =>
      `${line.quantity} ${line.itemCode} at ${line.placeName} by ${line.neededOn}, there ${line.covered}, ${line.outcome ?? 'open'}`,
  );

describe('stock is kept back by hand', () => {
  let job: Awaited<ReturnType<typeof makeJob>>;

  test('for a job, also more than there is, and whoever needs it first is served first', async () => {
    job = await makeJob(manager, skid, [{ task: 'Change the oil' }]);
    const keep = (quantity: string, neededOn: string) =>
      make(storekeeper, '/api/stock/reservations', { itemId: oil.id, placeId: store.id, jobId: job.id, quantity, neededOn });
    expect(await keep('2.5', '2026-12-05')).toMatchObject({ covered: '2.5', taken: '0', outcome: null, itemCode: 'OIL' });
    await keep('2', '2026-12-01');
    expect(await reservations(`jobId=${job.id}`)).toEqual([
      '2 OIL at Main store by 2026-12-01, there 2, open',
      '2.5 OIL at Main store by 2026-12-05, there 1, open',
    ]);
    expect(await available(`itemId=${oil.id}`)).toEqual(['Main store: OIL 3 - 4.5 = 0, short 1.5']);
  });

  test('once, however often the request comes, and released once', async () => {
    const key = randomUUID();
    const body = { itemId: oil.id, placeId: store.id, jobId: job.id, quantity: '1', neededOn: '2026-12-24' };
    const send = () => storekeeper.post('/api/stock/reservations', body).set('idempotency-key', key).expect(201);
    const first = (await send()).body;
    expect((await send()).body).toEqual(first);
    expect((await storekeeper.post(`/api/stock/reservations/${first.id}/release`, {}).expect(200)).body).toMatchObject({ outcome: 'released' });
    expect((await storekeeper.post(`/api/stock/reservations/${first.id}/release`, {}).expect(409)).body.title).toContain('released');
    await ada.api.post(`/api/stock/reservations/${first.id}/release`, {}).expect(403);
    await storekeeper.post(`/api/stock/reservations/${randomUUID()}/release`, {}).expect(404);
  });

  test.each([
    [{ quantity: '0' }, '#/quantity'],
    [{ quantity: '-1' }, '#/quantity'],
    [{ itemId: randomUUID() }, '#/itemId'],
    [{ placeId: randomUUID() }, '#/placeId'],
    [{ jobId: randomUUID() }, '#/jobId'],
    [{ jobId: null }, '#/jobId'],
    [{ visitId: randomUUID() }, '#/visitId'],
    [{ neededOn: '2026-02-30' }, '#/neededOn'],
  ])('%j is refused', async (change, pointer) => {
    const body = { itemId: oil.id, placeId: store.id, jobId: job.id, quantity: '1', neededOn: '2026-12-24', ...change };
    expect(pointersOf((await storekeeper.post('/api/stock/reservations', body).expect(400)).body)).toEqual([pointer]);
  });

  test('what the job takes is taken off it, and what is left when the job is over is released', async () => {
    const sheet = sheetOf(job, { finishedAt: AT, partsUsed: [{ itemId: oil.id, quantity: '2.5', placeId: store.id }] });
    await ada.api.post(`/api/jobs/${job.id}/reports`, sheet).expect(201);
    expect(await reservations(`jobId=${job.id}`)).toEqual([
      '2 OIL at Main store by 2026-12-01, there 0, taken',
      '2.5 OIL at Main store by 2026-12-05, there 0, released',
      '1 OIL at Main store by 2026-12-24, there 0, released',
    ]);
    expect(await available(`itemId=${oil.id}`)).toEqual(['Main store: OIL 0.5 - 0 = 0.5, short 0']);
  });
});

describe('a visit keeps back what it takes along', () => {
  let visit: Made;
  const kept = (outcome = 'open') => reservations(`visitId=${visit.id}`).then((lines: string[]) => lines.filter((line) => line.endsWith(outcome)));
  const read = async (): Promise<Made> => (await manager.get(`/api/visits/${visit.id}`).expect(200)).body;
  const due = async (quantity: number) => {
    const { prisma } = app.get(Database);
    const task = `Change seals ${randomUUID()}`;
    const sheet = await prisma.taskSheet.create({
      data: {
        task,
        kind: 'service',
        versions: { create: { no: 1, createdBy: 'test', usualMinutes: 30, steps: [], parts: { create: [{ itemId: seal.id, quantity }] } } },
      },
    });
    return makeDue(app, skid, task, { taskSheetId: sheet.id });
  };

  test('when it is promised, from the van first, and not while it is only planned', async () => {
    const plan = { siteId: skid.siteId, onDay: '2026-11-30', startTime: '08:00', personIds: [ada.id], dueIds: [await due(2), await due(2)] };
    visit = await make(manager, '/api/visits', plan);
    expect(await kept()).toEqual([]);
    await manager.post(`/api/visits/${visit.id}/promise`, {}).expect(200);
    expect((await kept()).sort()).toEqual(['1 SEAL at Van of Ada by 2026-11-30, there 1, open', '3 SEAL at Main store by 2026-11-30, there 3, open']);
    expect(await available(`itemId=${seal.id}`)).toEqual(['Main store: SEAL 5 - 3 = 2, short 0', 'Van of Ada: SEAL 1 - 1 = 0, short 0']);
  });

  test('on the day to which it is shifted, with the jobs that are put into it', async () => {
    await manager.patch(`/api/visits/${visit.id}`, (await read()).version, { onDay: '2026-12-02', tellClient: 'Asked for' }).expect(200);
    expect((await kept()).every((line: string) => line.includes('by 2026-12-02'))).toBe(true);
    await manager.post(`/api/visits/${visit.id}/jobs`, { dueIds: [await due(3)] }).expect(200);
    expect((await kept()).sort()).toEqual(['1 SEAL at Van of Ada by 2026-12-02, there 1, open', '6 SEAL at Main store by 2026-12-02, there 5, open']);
    expect(await available(`itemId=${seal.id}&placeId=${store.id}`)).toEqual(['Main store: SEAL 5 - 6 = 0, short 1']);
  });

  test('until it is called off', async () => {
    await manager.post(`/api/visits/${visit.id}/call-off`, { reason: 'Test' }).expect(200);
    expect(await kept()).toEqual([]);
    expect((await kept('released')).length).toBe(2);
    expect(await available(`itemId=${seal.id}`)).toEqual(['Main store: SEAL 5 - 0 = 5, short 0', 'Van of Ada: SEAL 1 - 0 = 1, short 0']);
  });

  test('until it is finished: what its jobs took is taken, and the rest released', async () => {
    const plan = { siteId: skid.siteId, onDay: '2026-11-25', startTime: '12:00', personIds: [ada.id], dueIds: [await due(4)] };
    visit = await make(manager, '/api/visits', plan);
    await manager.post(`/api/visits/${visit.id}/promise`, {}).expect(200);
    const [planned] = (await read()).jobs as { id: string; no: number }[];
    const { tasks: taskList } = await app.get(Database).prisma.job.findUniqueOrThrow({ where: { id: planned?.id ?? '' }, include: { tasks: true } });
    const made = { id: planned?.id ?? '', no: planned?.no ?? 0, taskList };
    const sheet = sheetOf(made, { finishedAt: '2026-11-25T08:30:00Z', partsUsed: [{ itemId: seal.id, quantity: '2', placeId: store.id }] });
    await ada.api.post(`/api/jobs/${made.id}/reports`, sheet).expect(201);
    expect((await read()).state).toBe('finished');
    expect(await kept()).toEqual([]);
    const { rows } = await app.get(Database).pool.query('SELECT sum(taken)::text AS taken FROM reservation WHERE visit_id = $1', [visit.id]);
    expect(Number(rows[0]?.taken)).toBe(2);
    expect(await available(`itemId=${seal.id}`)).toEqual(['Main store: SEAL 3 - 0 = 3, short 0', 'Van of Ada: SEAL 1 - 0 = 1, short 0']);
  });
});

describe('the list of stock', () => {
  test('says what is on order and on the way, also where nothing lies yet, in one statement however long it is', async () => {
    const supplier = await make(storekeeper, '/api/suppliers', { name: 'Birch Chemicals', currency: 'EUR' });
    const drum = await make(storekeeper, '/api/items', { code: 'DRUM', name: 'Citric acid', kind: 'chemical', unit: 'LTR' });
    const offer = { itemId: drum.id, supplierId: supplier.id, purchaseUnit: 'XIH', unitsPerPurchase: '200' };
    await make(storekeeper, '/api/offers', offer);
    const count = () => countQueries(() => ada.api.get('/api/stock/available').expect(200));
    const before = await count();
    await make(storekeeper, '/api/orders', { supplierId: supplier.id, placeId: store.id, lines: [{ itemId: drum.id, quantity: '2' }] });
    const sent = { id: randomUUID(), fromPlaceId: store.id, toPlaceId: van.id, at: AT, lines: [{ itemId: oil.id, quantity: '0.25' }] };
    await storekeeper.post('/api/transfers', sent).expect(201);
    const { items } = (await ada.api.get('/api/stock/available?find=d').expect(200)).body;
    const told = items.map(
      (line: Record<string, string>) => `${line.placeName}: ${line.itemCode} ${line.onHand}, ${line.onOrder} on order, ${line.onTheWay} coming`,
    );
    expect(told).toContain('Main store: DRUM 0, 400 on order, 0 coming');
    expect(told).toContain('Van of Ada: OIL 0, 0 on order, 0.25 coming');
    expect(await count()).toBe(before);
  });

  test('goes out as a table, by item and by lot', async () => {
    const table = async (path: string) => (await ada.api.get(path).expect(200)).text.trimEnd().split('\r\n');
    const [head, ...rows] = await table(`/api/stock/available.csv?placeId=${store.id}`);
    expect(head).toBe('place,item,name,unit,usable,reserved,available,short,on order,on the way');
    expect(rows).toContain('Main store,DRUM,Citric acid,LTR,0,0,0,0,400,0');
    await post('receive', [{ itemId: oil.id, quantity: '7', toPlaceId: store.id, lot: 'L-9', expiresOn: '2027-05-01' }]);
    const lines = await table(`/api/stock.csv?itemId=${oil.id}`);
    expect(lines[0]).toBe('place,item,name,unit,lot,serial number,expires on,preserve by,held,owner,owner name,on hand');
    expect(lines).toContain('Main store,OIL,Oil,LTR,L-9,,2027-05-01,,,us,,7');
    await ada.api.get('/api/stock.csv?at=soon').expect(400);
  });
});
