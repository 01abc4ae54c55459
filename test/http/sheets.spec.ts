import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { type Made, make } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let ada: { api: Api; id: string };
let tom: { api: Api; id: string };
let alder: SmallSkid[];
let auckland: SmallSkid;
let oilSheet: string;
let cleanSheet: string;
let greaseSheet: string;
let store: Made;
let van: Made;
let vanOfTom: Made;
let oil: Made;
let rag: Made;
let grease: Made;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T18:00:00Z');
  manager = await signInAs(app, 'manager');
  [ada, tom] = [await signInByName(app, 'Ada'), await signInByName(app, 'Tom')];
  alder = await makeSkids(app, 'Alder', 13);
  [auckland] = (await makeSkids(app, 'Kauri', 1, 'Pacific/Auckland')) as [SmallSkid];
  oil = await make(manager, '/api/items', { code: 'OIL', name: 'Gear oil', kind: 'lubricant', unit: 'LTR' });
  rag = await make(manager, '/api/items', { code: 'RAG', name: 'Rags', kind: 'consumable' });
  grease = await make(manager, '/api/items', { code: 'GREASE', name: 'Grease', kind: 'lubricant' });
  store = await make(manager, '/api/places', { name: 'Main store', kind: 'store' });
  van = await make(manager, '/api/places', { name: 'Van of Ada', kind: 'van', personId: ada.id });
  vanOfTom = await make(manager, '/api/places', { name: 'Van of Tom', kind: 'van', personId: tom.id });
  await receive([
    [oil.id, '2.5', store.id, 'L1'],
    [oil.id, '1.5', store.id, 'L2'],
    [oil.id, '1', van.id, 'L1'],
    [grease.id, '4', vanOfTom.id, 'G1'],
  ]);
  const { prisma } = app.get(Database);
  const version = { no: 1, createdBy: 'test', usualMinutes: 45 };
  const parts = (lines: [item: Made, quantity: number, everyVisit?: boolean][]) => ({
    create: lines.map(([{ id: itemId }, quantity, everyVisit = false]) => ({ itemId, quantity, everyVisit })),
  });
  const steps = [{ no: 1, kind: 'check', text: 'Locked out', safety: true, signal: null, unit: null, low: null, high: null }];
  oilSheet = (
    await prisma.taskSheet.create({
      data: {
        task: 'Change the oil',
        kind: 'service',
        versions: {
          create: {
            ...version,
            tools: ['Oil pump'],
            skills: ['mechanic'],
            steps,
            parts: parts([
              [oil, 1.5],
              [rag, 2, true],
            ]),
          },
        },
      },
    })
  ).id;
  const greased = { create: { ...version, steps, parts: parts([[grease, 4]]) } };
  greaseSheet = (await prisma.taskSheet.create({ data: { task: 'Grease the pump', kind: 'service', versions: greased } })).id;
  const chemicals = [
    { chemical: 'citric acid', litres: 2, strength: '50 %' },
    { chemical: 'sodium hypochlorite', litres: 5, strength: '12 %' },
  ];
  cleanSheet = (
    await prisma.taskSheet.create({
      data: {
        task: 'Recovery clean',
        kind: 'clean',
        versions: { create: { ...version, crew: 2, waterOffMinutes: 120, chemicals, steps, parts: parts([[rag, 3, true]]) } },
      },
    })
  ).id;
});
afterAll(() => app?.close());

const receive = (lines: (readonly [itemId: string, quantity: string, toPlaceId: string, lot: string])[]) =>
  manager
    .post('/api/stock/posts', {
      id: randomUUID(),
      kind: 'receive',
      at: '2026-11-20T10:00:00Z',
      moves: lines.map(([itemId, quantity, toPlaceId, lot]) => ({ itemId, quantity, toPlaceId, lot })),
    })
    .expect(201);
const oilDue = (skid: SmallSkid | undefined) => makeDue(app, skid as SmallSkid, 'Change the oil', { taskSheetId: oilSheet, minutes: 45 });
const cleanDue = (skid: SmallSkid | undefined) => makeDue(app, skid as SmallSkid, 'Recovery clean', { taskSheetId: cleanSheet, minutes: 120 });
const visit = (onDay: string, personIds: string[], dueIds: string[], site = alder[0]) =>
  make(manager, '/api/visits', { siteId: site?.siteId, onDay, startTime: '08:00', personIds, dueIds });
const sheetsOf = async (by: Api, query = '') => (await by.get(`/api/sheets${query}`).expect(200)).body;

test('the kit sums what the jobs of a visit need, and says what the van holds and what is to be picked', async () => {
  const made = await visit('2026-11-27', [ada.id], [await oilDue(alder[0]), await oilDue(alder[1]), await cleanDue(alder[1])]);
  const { body: kit } = await tom.api.get(`/api/visits/${made.id}/kit`).expect(200);
  expect(kit).toMatchObject({
    items: [
      { code: 'OIL', quantity: '3', inVan: '1', toPick: '2', short: '0', stores: [{ placeName: 'Main store', onHand: '4' }] },
      { code: 'RAG', quantity: '3', inVan: '0', toPick: '3', short: '3', stores: [] },
    ],
    chemicals: [
      { chemical: 'citric acid', litres: 2, strength: '50 %' },
      { chemical: 'sodium hypochlorite', litres: 5, strength: '12 %' },
    ],
    keepApart: [{ chemicals: ['citric acid', 'sodium hypochlorite'], happens: 'chlorine gas, possibly violent' }],
    tools: ['Oil pump'],
    skills: ['mechanic'],
    crew: 2,
    waterOffMinutes: 120,
    withoutSheet: [],
  });
  expect(kit.cautions.length).toBeGreaterThan(0);
  expect((await manager.get(`/api/visits/${made.id}`)).body.consequences).toContainEqual({
    about: 'people',
    text: 'Recovery clean at Alder 2 needs 2 people; 1 goes',
  });
  await manager.get(`/api/visits/${randomUUID()}/kit`).expect(404);
});

test('what has no sheet is said to need nobody knows what', async () => {
  const made = await visit('2026-12-24', [tom.id], [await makeDue(app, alder[2] as SmallSkid, 'Look at the noise')]);
  expect((await manager.get(`/api/visits/${made.id}/kit`)).body).toMatchObject({ items: [], withoutSheet: ['Look at the noise'] });
  expect((await manager.get(`/api/visits/${made.id}`)).body).toMatchObject({
    minutes: 60,
    consequences: expect.arrayContaining([expect.objectContaining({ about: 'time assumed' })]),
  });
});

test('a technician fetches ahead their own visits with sheets, kit and stock', async () => {
  const sheets = await sheetsOf(ada.api);
  expect(sheets.madeAt).toBe('2026-11-25T18:00:00.000Z');
  expect(sheets.visits).toMatchObject([
    { onDay: '2026-11-27', siteName: 'Alder site', timeZone: 'Europe/Madrid', people: [{ name: 'Ada' }], kit: { crew: 2 } },
  ]);
  const [first] = sheets.visits;
  expect(
    first.jobs
      .map(
        ({ skidName, tasks }: { skidName: string; tasks: { task: string }[] }) =>
          `${skidName}: ${tasks
            .map(({ task }) => task)
            .sort()
            .join(', ')}`,
      )
      .sort(),
  ).toEqual(['Alder 1: Change the oil', 'Alder 2: Change the oil, Recovery clean']);
  expect(sheets.places).toMatchObject([
    { name: 'Van of Ada', kind: 'van', stock: [{ code: 'OIL', onHand: '1' }] },
    { name: 'Main store', kind: 'store', stock: [{ code: 'OIL', onHand: '4', unit: 'LTR' }] },
  ]);
  expect((await sheetsOf(tom.api)).visits).toEqual([]);
  expect((await sheetsOf(tom.api, '?days=30')).visits).toHaveLength(1);
  expect((await sheetsOf(manager, '?days=30')).visits).toHaveLength(2);
  await (await signInAs(app, 'storekeeper')).get('/api/sheets').expect(403);
  await ada.api.get('/api/sheets?days=400').expect(400);
});

test('days are those of the site', async () => {
  // It is 26 November in Auckland already.
  await visit('2026-12-03', [tom.id], [await oilDue(auckland)], auckland);
  expect((await sheetsOf(tom.api, '?days=6')).visits).toEqual([]);
  expect((await sheetsOf(tom.api, '?days=7')).visits).toMatchObject([{ siteName: 'Kauri site' }]);
});

test('a sheet that was not sent in time is still fetched for a week', async () => {
  await visit('2026-11-18', [tom.id], [await oilDue(alder[3])]);
  await visit('2026-11-17', [tom.id], [await oilDue(alder[4])]);
  expect((await sheetsOf(tom.api, '?days=0')).visits).toMatchObject([{ onDay: '2026-11-18' }]);
});

test('many visits take as many statements as one', async () => {
  const one = await countQueries(() => ada.api.get('/api/sheets').expect(200));
  for (const [at, day] of ['2026-11-26', '2026-11-28', '2026-11-29'].entries()) {
    await visit(day, [ada.id, tom.id], [await oilDue(alder[5 + at]), await cleanDue(alder[5 + at]), await oilDue(alder[9 + at])]);
  }
  expect((await sheetsOf(ada.api)).visits).toHaveLength(4);
  expect(await countQueries(() => ada.api.get('/api/sheets').expect(200))).toBe(one);
});

test('what only another van holds is said to be handed over, less what is kept back there, and nothing else of that van is told', async () => {
  const toms = await visit('2026-12-20', [tom.id], [await oilDue(alder[12])]);
  await manager
    .post('/api/stock/reservations', { itemId: grease.id, placeId: vanOfTom.id, visitId: toms.id, quantity: '1', neededOn: '2026-12-20' })
    .set('idempotency-key', randomUUID())
    .expect(201);
  await visit('2026-12-21', [ada.id], [await makeDue(app, alder[11] as SmallSkid, 'Grease the pump', { taskSheetId: greaseSheet, minutes: 45 })]);
  const { visits, places } = await sheetsOf(ada.api, '?days=30');
  const kit = visits.find(({ onDay }: { onDay: string }) => onDay === '2026-12-21').kit;
  expect(kit.items).toMatchObject([{ code: 'GREASE', inVan: '0', toPick: '4', stores: [], otherVans: [{ name: 'Tom', quantity: '3' }], short: '1' }]);
  expect(Object.keys(kit.items[0].otherVans[0]).sort()).toEqual(['name', 'quantity']);
  expect(places.map(({ name }: { name: string }) => name)).toEqual(['Van of Ada', 'Main store']);
});
