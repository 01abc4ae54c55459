import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database, Recompute } from '../../src/app/index.js';
import { ChemicalNeeds } from '../../src/chemicals/index.js';
import { RecomputeReorder } from '../../src/store/index.js';
import type { Api } from '../support/api.js';
import { makePlant, type Plant, signedIn } from '../support/plant.js';
import { make } from '../support/records.js';
import { startTestApp } from '../support/test-app.js';

const DAY_MS = 86_400_000;
const UPRIGHT = { shape: 'vertical-cylinder', diameterM: 1, heightM: 1.4, capacityL: 1050, heelL: 40 } as const;

let app: NestFastifyApplication;
let plant: Plant;
let other: Plant;
let manager: Api;
let technician: Api;
let operator: Api;
let stranger: Api;
let acid: string;
let bleach: string;

beforeAll(async () => {
  app = await startTestApp();
  plant = await makePlant(app, 'Reed Water', 'Etc/UTC');
  other = await makePlant(app, 'Sedge Water', 'Etc/UTC');
  manager = await signedIn(app, 'manager');
  technician = await signedIn(app, 'technician');
  operator = await signedIn(app, 'client', { clientId: plant.clientId, siteId: plant.siteId, mayEnterReadings: true });
  stranger = await signedIn(app, 'client', { clientId: other.clientId, siteId: other.siteId, mayEnterReadings: true });
  acid = await tank({ name: 'Citric acid', chemical: 'citric acid', strengthGL: 620, suppliedBy: 'client' });
  bleach = await tank({ name: 'Bleach', chemical: 'sodium hypochlorite', strengthGL: 125, storageC: 20 });
});
afterAll(() => app?.close());

async function tank(given: object): Promise<string> {
  const { body } = await manager.post('/api/tanks', { skidId: plant.skidId, ...UPRIGHT, ...given }).expect(201);
  return body.id;
}
const daysAgo = (days: number) => new Date(Date.now() - days * DAY_MS).toISOString();
const inDays = (days: number) => new Date(Date.now() + days * DAY_MS).toISOString().slice(0, 10);
const coverOf = async (by: Api, id: string) =>
  (await by.get('/api/tanks/cover?limit=200').expect(200)).body.items.find((row: { tankId: string }) => row.tankId === id);

/** Weekly dips of a tank of 1 m across from which 8 L a day should go, and from some week on more. */
async function dipWeekly(id: string, firstL: number, more: (week: number) => number, weeks = 12): Promise<void> {
  let litres = firstL;
  for (let week = weeks; week >= 0; week -= 1) {
    const levelM = litres / (1000 * Math.PI * 0.25);
    await technician.post(`/api/tanks/${id}/dips`, { at: daysAgo(7 * week), levelM }).expect(200);
    litres -= 56 + more(weeks - week);
  }
}

describe('a tank', () => {
  test('of any form is registered with its table, what fills it and who supplies it', async () => {
    const levelTable = [
      { levelM: 0.3, volumeL: 90 },
      { levelM: 1.2, volumeL: 980 },
    ];
    const domed = { name: 'Domed', chemical: 'antiscalant', shape: 'table', heightM: 1.2, capacityL: 1000, levelTable };
    const { body } = await manager.post('/api/tanks', { skidId: plant.skidId, ...domed }).expect(201);
    expect(body).toMatchObject({ levelTable, suppliedBy: 'us', itemId: null, fedFromId: null });
    const falling = await manager.patch(`/api/tanks/${body.id}`, body.version, { levelTable: [...levelTable].reverse() }).expect(400);
    expect(falling.body.errors[0]).toMatchObject({ pointer: '#/levelTable', message: expect.stringMatching(/must rise/) });
  });

  test('that is a day tank is filled from one of the site that holds the same', async () => {
    const fault = async (fedFromId: string) => {
      const { body } = await manager.post('/api/tanks', { skidId: plant.skidId, ...UPRIGHT, name: 'Day tank', chemical: 'NaOCl', fedFromId }).expect(400);
      return body.errors[0].message;
    };
    expect(await fault(acid)).toMatch(/Citric acid holds citric acid, and this tank NaOCl/);
    expect(await fault(other.tankId)).toMatch(/no such tank at this site/);
    const dayTank = await tank({ name: 'Day tank', chemical: 'NaOCl', fedFromId: bleach });
    expect(await fault(dayTank)).toMatch(/is a day tank itself/);
  });

  test('is not given another chemical that must not meet what it held', async () => {
    const { body: seen } = await manager.get(`/api/tanks/${bleach}`).expect(200);
    const { body } = await manager.patch(`/api/tanks/${bleach}`, seen.version, { chemical: 'hydrochloric acid' }).expect(400);
    expect(body.errors[0].message).toMatch(/chlorine gas.*End this tank, rinse it, and register it as a new one/);
  });
});

describe('a dip', () => {
  test('above the height of the tank says what to do, and changes nothing', async () => {
    const { body } = await technician.post(`/api/tanks/${acid}/dips`, { at: daysAgo(1), levelM: 1.5 }).expect(400);
    expect(body.errors[0]).toMatchObject({
      pointer: '#/levelM',
      message: '1.5 is not between empty and the height of the tank: read the stick again, and look at its unit',
    });
    expect(await app.get(Database).prisma.tankDip.count({ where: { tankId: acid } })).toBe(0);
  });
});

describe('a delivery', () => {
  const path = () => `/api/tanks/${bleach}/deliveries`;

  test('keeps product, strength with its basis, batch and expiry', async () => {
    const label = { product: 'NaOCl 12.5 %', strengthValue: 12.5, strengthBasis: 'trade %', lot: 'B-17', expiresOn: inDays(40) };
    await technician.post(path(), { at: daysAgo(20), volumeL: 400, ...label }).expect(200);
    const { body } = await operator.get(`/api/tanks/${bleach}/books`).expect(200);
    expect(body.deliveries[0]).toMatchObject({
      volumeL: 400,
      strengthGL: 125,
      product: 'NaOCl 12.5 %',
      lot: 'B-17',
      expiresOn: label.expiresOn,
      by: 'A technician',
    });
  });

  test.each([
    ['of acid into hypochlorite', { product: 'Hydrochloric acid 32 %' }, '#/product', /must never go into a tank of sodium hypochlorite: chlorine gas/],
    ['of an unknown product into hypochlorite', { product: 'Blue drum' }, '#/product', /as the safety data sheet names it/],
    ['of the wrong strength', { strengthGL: 60 }, '#/strengthGL', /52 % below the usual 125 g\/L.*confirm the strength/],
    ['in per cent without a basis', { strengthValue: 12.5 }, '#/strengthBasis', /what the strength on the label goes by/],
    ['in wt % of nobody knows what', { strengthValue: 12.5, strengthBasis: 'wt %' }, '#/strengthBasis', /of Cl2 or of NaOCl/],
    ['of more than the tank holds', { volumeL: 1100 }, '#/volumeL', /more than the tank holds/],
    ['out of a tank of something else', { fromTankId: '00000000-0000-7000-8000-000000000000' }, '#/fromTankId', /no other tank of the same site/],
  ])('%s is refused, and nothing is kept', async (_, given, pointer, message) => {
    const before = await app.get(Database).prisma.tankDelivery.count();
    const { body } = await technician.post(path(), { at: daysAgo(2), volumeL: 100, ...given }).expect(400);
    expect(body.errors[0]).toMatchObject({ pointer, message: expect.stringMatching(message) });
    expect(await app.get(Database).prisma.tankDelivery.count()).toBe(before);
  });

  test('of an unusual strength is taken when somebody confirms it', async () => {
    await technician.post(path(), { at: daysAgo(3), volumeL: 20, strengthGL: 60, strengthConfirmed: true }).expect(200);
  });
});

describe('an assay', () => {
  test('goes before what is reckoned, once for its moment', async () => {
    const assay = { at: daysAgo(1), value: 10, basis: 'trade %', method: 'titration' };
    const { body } = await operator.post(`/api/tanks/${bleach}/assays`, assay).expect(201);
    expect(body).toMatchObject({ strengthGL: 100, value: 10, basis: 'trade %', by: 'A client' });
    await technician.post(`/api/tanks/${bleach}/assays`, { ...assay, value: 11 }).expect(409);
    await stranger.post(`/api/tanks/${bleach}/assays`, assay).expect(404);
    expect((await operator.get(`/api/tanks/${bleach}/assays`).expect(200)).body.items).toHaveLength(1);
    await stranger.get(`/api/tanks/${bleach}/assays`).expect(404);
  });
});

describe('who draws from a tank', () => {
  test('outside the skids is an average day, and of a skid its recipe', async () => {
    const path = `/api/tanks/${acid}/users`;
    const { body } = await manager.post(path, { name: 'Wash bay', doseMgL: 2 }).expect(400);
    expect(body.errors[0].pointer).toBe('#/litresPerDay');
    await manager.post(path, { name: 'Neighbour', skidId: other.skidId, doseMgL: 2 }).expect(400);
    const { body: made } = await manager.post(path, { name: 'Wash bay', litresPerDay: 5, sdPerDay: 1 }).expect(201);
    await manager.patch(`/api/tank-users/${made.id}`, made.version, { litresPerDay: 8 }).expect(200);
    expect((await operator.get(path).expect(200)).body.items).toMatchObject([{ name: 'Wash bay', litresPerDay: 8, skidId: null }]);
    await stranger.get(path).expect(404);
    await technician.post(path, { name: 'Mine', litresPerDay: 1 }).expect(403);
  });
});

describe('the books of a tank', () => {
  test('find a loss that lasts, say since when and what it may be, and reach the list and the table', async () => {
    await dipWeekly(acid, 900, (week) => (week >= 7 ? 14 : 0));
    await app.get(Recompute).now(plant.skidId);
    const { body } = await operator.get(`/api/tanks/${acid}/books`).expect(200);
    expect(body).toMatchObject({ state: 'more', consumers: expect.arrayContaining([{ name: 'Wash bay', litresPerDay: 8 }]) });
    expect(body.driftLDay).toBeGreaterThan(1.5);
    expect(body.words).toMatch(/more than the set points ask for.*It may be a leak/);
    expect(body.points).toHaveLength(13);
    const row = await coverOf(manager, acid);
    expect(row).toMatchObject({ balanceState: 'more', suppliedBy: 'client', dailyUseL: expect.any(Number) });
    expect(row.earlyDays < row.likelyDays && row.likelyDays < row.lateDays).toBe(true);
    const table = await manager.get('/api/tanks/cover.csv').expect(200);
    expect(table.headers['content-type']).toContain('text/csv');
    expect(table.text).toMatch(/^client,site,skid,tank,chemical,supplied_by/);
    expect(table.text).toMatch(/Reed Water,.*Citric acid,citric acid,client,/);
  });

  test('are not for strangers, and a tank that has none says so', async () => {
    await stranger.get(`/api/tanks/${acid}/books`).expect(404);
    expect((await manager.get(`/api/tanks/${other.tankId}/books`).expect(200)).body).toMatchObject({ state: 'too little data', points: [] });
  });
});

describe('a tank that the client fills', () => {
  test('reminds the client, who announces a delivery and confirms it', async () => {
    const { reminder } = await coverOf(operator, acid);
    expect(reminder.words).toMatch(/^Please have about \d+ L of citric acid in the tank by/);
    const path = `/api/tanks/${acid}/announcements`;
    await stranger.post(path, { volumeL: 500, expectedOn: inDays(1) }).expect(404);
    await manager.post(`/api/tanks/${bleach}/announcements`, { volumeL: 500, expectedOn: inDays(1) }).expect(409);
    await operator.post(path, { volumeL: 5000, expectedOn: inDays(1) }).expect(400);
    const { body: announced } = await operator.post(path, { volumeL: 500, expectedOn: inDays(0), note: 'by lorry' }).expect(201);
    await operator.post(path, { volumeL: 500, expectedOn: inDays(1) }).expect(409);
    expect((await coverOf(operator, acid)).awaited).toMatchObject({ id: announced.id, volumeL: 500, state: 'awaited' });
    const delivery = { at: daysAgo(0), volumeL: 480, product: 'citric acid 50 %', strengthValue: 50, strengthBasis: 'wt %', announcementId: announced.id };
    await operator.post(`/api/tanks/${acid}/deliveries`, delivery).expect(200);
    expect(await coverOf(operator, acid)).toMatchObject({ awaited: null });
    await operator.call('post', `/api/announcements/${announced.id}/call-off`).set('if-match', '"2"').expect(409);
  });

  test('is called off by the client too, and not by a stranger', async () => {
    const { body } = await operator.post(`/api/tanks/${acid}/announcements`, { volumeL: 100, expectedOn: inDays(3) }).expect(201);
    const off = (by: Api) => by.call('post', `/api/announcements/${body.id}/call-off`).set('if-match', `"${body.version}"`);
    await off(stranger).expect(404);
    expect((await off(operator).expect(200)).body.state).toBe('called off');
    const late = { at: daysAgo(0.01), volumeL: 100, announcementId: body.id };
    expect((await operator.post(`/api/tanks/${acid}/deliveries`, late).expect(400)).body.errors[0].pointer).toBe('#/announcementId');
  });
});

describe('what tanks ask of the store', () => {
  test('is told of those that we fill and that name their item', async () => {
    const { prisma } = app.get(Database);
    const item = await prisma.item.create({ data: { code: 'CHEM-1', name: 'Antifoam', kind: 'chemical', unit: 'LTR' } });
    const ours = await tank({ name: 'Ours', chemical: 'antifoam', itemId: item.id });
    await manager.post(`/api/tanks/${ours}/users`, { name: 'Washer', litresPerDay: 4, sdPerDay: 2 }).expect(201);
    await technician.post(`/api/tanks/${ours}/dips`, { at: daysAgo(1), levelM: 0.4 }).expect(200);
    await app.get(Recompute).now(plant.skidId);
    const needs = await app.get(ChemicalNeeds).all(plant.siteId);
    expect(needs).toEqual([
      expect.objectContaining({ tankId: ours, itemId: item.id, siteId: plant.siteId, dailyUseL: 4, useSdL: 2, heelL: 40, volumeL: expect.closeTo(270, 0) }),
    ]);
  });

  test('stands in the reorder list of the store that supplies the site, to be ordered before the tank runs out', async () => {
    const store = await make(manager, '/api/places', { name: 'Main store', kind: 'store' });
    const [before] = await app.get(ChemicalNeeds).all(plant.siteId);
    await technician.post(`/api/tanks/${before?.tankId}/dips`, { at: daysAgo(0.01), levelM: 0.09 }).expect(200);
    await app.get(Recompute).now(plant.skidId);
    await app.get(RecomputeReorder).all();
    const { items } = (await manager.get(`/api/reorder?show=all&placeId=${store.id}`).expect(200)).body;
    const [need] = await app.get(ChemicalNeeds).all(plant.siteId);
    const line = items.find(({ itemCode }: { itemCode: string }) => itemCode === 'CHEM-1');
    expect(line).toMatchObject({ unit: 'LTR', placeName: 'Main store', action: 'buy' });
    expect(line.reasons).toContainEqual(expect.objectContaining({ kind: 'tank', text: 'Ours runs out', day: need?.runOutOn }));
  });
});

describe('the calculators', () => {
  test('reckon a dose with the strength of today', async () => {
    const dose = { chemical: 'sodium hypochlorite', doseMgL: 2, flowM3h: 20, productValue: 12.5, productBasis: 'trade %', pumpLh: 1 };
    expect((await technician.post('/api/calculators/dose', dose).expect(200)).body).toMatchObject({ strengthGL: 125, litresPerHour: 0.32, strokePercent: 32 });
    const { body } = await technician.post('/api/calculators/dose', { ...dose, ageDays: 21, storageC: 25 }).expect(200);
    expect(body.strengthGL).toBeCloseTo(112.4, 1);
    expect(body.cautions.join(' ')).toContain('chlorine gas');
  });

  test('make up a batch and neutralise it, or say what is missing', async () => {
    const batch = { chemical: 'sodium hypochlorite', volumeM3: 1, targetMgL: 500, productValue: 125 };
    expect((await operator.post('/api/calculators/batch', batch).expect(200)).body).toMatchObject({
      productL: 4,
      neutralise: [{ name: 'sodium bisulfite', kg: 0.805 }],
    });
    const caustic = { chemical: 'sodium hydroxide', volumeM3: 1, targetPh: 12, productValue: 50, productBasis: 'wt %' };
    const { body } = await operator.post('/api/calculators/batch', caustic).expect(200);
    expect(body).toMatchObject({ isLowerBound: true, cautions: expect.arrayContaining([expect.stringMatching(/into water/)]) });
    expect((await operator.post('/api/calculators/batch', { ...batch, targetMgL: undefined }).expect(400)).body.errors[0].pointer).toBe('#/targetMgL');
  });

  test('read the CT tables, and say where they end', async () => {
    const segment = { volumeM3: 2, flowM3h: 20, baffling: 'poor', chlorineMgL: 0.8, temperatureC: 17.3, ph: 7.2 };
    const { body } = await operator.post('/api/calculators/contact-time', { segments: [segment] }).expect(200);
    expect(body).toMatchObject({ segments: [{ giardia3LogCt: 88, virus4LogCt: 4, outside: null }], virusLog: expect.closeTo(1.44, 9) });
    expect(body.source).toContain('EPA 815-R-20-003');
    const cold = await operator.post('/api/calculators/contact-time', { segments: [{ ...segment, temperatureC: 0 }] }).expect(200);
    expect(cold.body).toMatchObject({ giardiaLog: null, segments: [{ outside: 'The tables begin at 0.5 °C' }] });
  });

  test('say what must not come together', async () => {
    const ask = async (way: string, chemicals: string[]) => (await technician.post('/api/calculators/together', { way, chemicals }).expect(200)).body.allowed;
    expect(await ask('van bay', ['NaOCl', 'citric acid'])).toBe(false);
    expect(await ask('sequence', ['NaOCl', 'rinse', 'citric acid'])).toBe(true);
  });
});
