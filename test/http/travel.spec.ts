import { randomUUID } from 'node:crypto';
import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

interface Region {
  readonly id: string;
  readonly name: string;
  readonly version: number;
  readonly factor: number;
}

/** Half an hour and 30 km for every way that begins east of 8 degrees; holes elsewhere. */
const table = createServer(({ url = '' }, response) => {
  const from = decodeURIComponent(url).replace('/table/v1/driving/', '').split('?')[0]?.split(';') ?? [];
  const cells = (value: number) => from.map((one) => from.map((two) => (one === two ? 0 : Number(one.split(',')[0]) > 8 ? value : null)));
  response.writeHead(200, { 'content-type': 'application/json' }).end(JSON.stringify({ code: 'Ok', durations: cells(1800), distances: cells(30_000) }));
});
let app: NestFastifyApplication;
let manager: Api;
let ada: { id: string };
let east: SmallSkid;
let west: SmallSkid;
let nowhere: SmallSkid;

beforeAll(async () => {
  table.listen(0, '127.0.0.1');
  await once(table, 'listening');
  app = await startTestApp(undefined, { travelTableUrl: `http://127.0.0.1:${(table.address() as AddressInfo).port}` });
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  ada = await signInByName(app, 'Ada');
  [[east], [west], [nowhere]] = [await makeSkids(app, 'East', 1), await makeSkids(app, 'West', 1), await makeSkids(app, 'Nowhere', 1)] as [
    [SmallSkid],
    [SmallSkid],
    [SmallSkid],
  ];
  const { prisma } = app.get(Database);
  await prisma.site.update({ where: { id: east.siteId }, data: { latitude: 50, longitude: 8.2 } });
  await prisma.site.update({ where: { id: west.siteId }, data: { latitude: 50, longitude: 7.8 } });
  const home = { latitude: 50, longitude: 8, workDays: [1, 2, 3, 4, 5], shiftFrom: '08:00', regularUntil: '16:30', shiftUntil: '17:00' };
  await prisma.personPlanning.create({ data: { ...home, personId: ada.id } });
});
afterAll(async () => {
  await app?.close();
  table.closeAllConnections();
  table.close();
});

const way = async (from: string, to: string) => (await manager.get(`/api/planning/travel?from=${from}&to=${to}`).expect(200)).body;
const put = (path: string, body: object, version = 0) => manager.put(`/api/planning/travel/${path}`, body).set('if-match', `"${version}"`);

describe('a way', () => {
  test('is of the road table where it knows the way, and of the distance where it does not, with the reason', async () => {
    expect(await way(east.siteId, west.siteId)).toEqual({
      fromName: 'East site',
      toName: 'West site',
      minutes: 30,
      km: 30,
      source: 'by road table',
      said: null,
    });
    const back = await way(west.siteId, east.siteId);
    // 0.4 degrees of longitude at 50 degrees north are 28.6 km, times 1.3
    expect(back).toMatchObject({
      km: 37.2,
      source: 'estimated by distance',
      said: expect.stringMatching(/knows no way .*1 of 2 ways are estimated by distance/),
    });
  });

  test('is as set by hand before all else, in the plan as well', async () => {
    const [due] = [await makeDue(app, west, 'Change the oil', { minutes: 45 })];
    const id = randomUUID();
    const ferry = { fromId: ada.id, toId: west.siteId, bothWays: true, minutes: 100, km: 12.5, note: 'By ferry' };
    expect((await put(`overrides/${id}`, ferry).expect(200)).body).toMatchObject({
      fromName: 'Ada',
      toName: 'West site',
      setBy: 'A manager',
      setAt: '2026-11-25T09:00:00.000Z',
      version: 1,
    });
    expect(await way(west.siteId, ada.id)).toMatchObject({ minutes: 100, km: 12.5, source: 'set by hand' });
    const plan = (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201)).body;
    const [tour] = plan.tours;
    expect(tour.stops.map((stop: { id: string }) => stop.id)).toEqual([due]);
    expect(plan.lines[0]).toMatchObject({ travelMinutes: 100, travelSource: 'set by hand' });
    expect(plan.travelSaid).toMatch(/ways are estimated by distance$/);
    const minutes = (time: string) => Number(time.slice(0, 2)) * 60 + Number(time.slice(3));
    expect(minutes(tour.backAt) - minutes(tour.stops[0].endAt)).toBe(100);
    await manager.delete(`/api/planning/travel/overrides/${id}`).expect(204);
    await manager.delete(`/api/planning/travel/overrides/${id}`).expect(404);
    expect((await way(ada.id, west.siteId)).source).toBe('estimated by distance');
    expect((await manager.get('/api/planning/travel/service').expect(200)).body).toMatchObject({ isSetUp: true, said: null, answeredAt: expect.any(String) });
  });

  test('that is longer than the time between two visits is told when one of them is looked at', async () => {
    const visit = async (siteId: string, startTime: string) =>
      (await manager.post('/api/visits', { siteId, onDay: '2026-12-08', startTime, personIds: [ada.id], minutes: 60 }).expect(201)).body;
    const first = await visit(east.siteId, '08:00');
    const told = ({ consequences }: { consequences: { about: string; text: string }[] }) => consequences.filter(({ about }) => about === 'way');
    expect(told(await visit(west.siteId, '09:20'))).toEqual([
      {
        about: 'way',
        text: `Ada is at East site on 8 Dec until 09:00 (visit ${first.no}), and the way from there takes 44 minutes (estimated by distance): 20 are between`,
      },
    ]);
    const [back] = told((await manager.get(`/api/visits/${first.id}`).expect(200)).body);
    expect(back?.text).toMatch(/^Ada is at West site on 8 Dec from 09:20 .* the way there takes 44 minutes/);
  });

  test('needs two known positions', async () => {
    expect(pointersOf((await manager.get(`/api/planning/travel?from=${east.siteId}&to=${nowhere.siteId}`).expect(400)).body)).toEqual(['to']);
    await manager.get(`/api/planning/travel?from=${randomUUID()}&to=${east.siteId}`).expect(404);
    expect(await way(east.siteId, east.siteId)).toMatchObject({ minutes: 0, km: 0 });
  });
});

describe('roads by region', () => {
  const roads = { factor: 1.6, nearKmh: 30, farKmh: 50 };
  const usual = async () => ((await manager.get('/api/planning/travel/regions').expect(200)).body as Region[])[0] as Region;

  test('are the usual ones until somebody names a region, and never lack those of everywhere else', async () => {
    const { id, version, name } = await usual();
    const before = await way(west.siteId, ada.id);
    await put(`regions/${id}`, { ...roads, name, siteIds: [], factor: 1.5 }, version).expect(200);
    expect((await way(west.siteId, ada.id)).km / before.km).toBeCloseTo(1.5 / 1.3, 1);
    await manager.delete(`/api/planning/travel/regions/${id}`).expect(409);
    const { body } = await put(`regions/${id}`, { ...roads, name, siteIds: [west.siteId] }, version + 1).expect(400);
    expect(pointersOf(body)).toEqual(['#/siteIds']);
  });

  test('hold for the sites of the region, each of which is of one only', async () => {
    const [hills, towns] = [randomUUID(), randomUUID()];
    const before = await way(west.siteId, ada.id);
    await put(`regions/${hills}`, { ...roads, name: 'Hills', siteIds: [west.siteId], factor: 3 }).expect(200);
    expect((await way(west.siteId, ada.id)).km / before.km).toBeCloseTo(2, 1);
    expect(pointersOf((await put(`regions/${towns}`, { ...roads, name: 'Towns', siteIds: [east.siteId, west.siteId] }).expect(400)).body)).toEqual([
      '#/siteIds/1',
    ]);
    await put(`regions/${towns}`, { ...roads, name: 'Hills', siteIds: [] }).expect(409);
    await put(`regions/${hills}`, { ...roads, name: 'Hills', siteIds: [] }).expect(412);
    await manager.delete(`/api/planning/travel/regions/${hills}`).expect(204);
  });

  test('are a matter of managers', async () => {
    await (await signInAs(app, 'storekeeper')).get('/api/planning/travel/regions').expect(403);
  });
});

describe('what recorded trips ask for', () => {
  interface Fit {
    readonly regionName: string;
    readonly trips: number;
    readonly factor: number | null;
    readonly farKmh: number | null;
    readonly summary: string;
  }
  const fit = async () => ((await manager.get('/api/planning/travel/fit').expect(200)).body as Fit[])[0];
  const drive = async (from: number, days: number, about: object) => {
    const { clientId, siteId, id: skidId } = west;
    for (let day = from; day < from + days; day += 1) {
      const at = new Date(Date.UTC(2026, 9, day, 9));
      const report = {
        id: randomUUID(),
        clientId,
        byId: ada.id,
        by: 'Ada',
        startedAt: at,
        finishedAt: at,
        state: 'counts',
        minutes: 60,
        contentHash: 'x',
        summary: {},
      };
      const content = { travelMinutes: 20, travelKm: 17, ...about };
      await app.get(Database).prisma.job.create({
        data: { clientId, siteId, skidId, kind: 'service', title: 'Oil', createdBy: 'T', reports: { create: { ...report, content } } },
      });
    }
  };

  test('is nothing from too few, and then said with its numbers, and changes nothing', async () => {
    const before = (await manager.get('/api/planning/travel/regions').expect(200)).body;
    await drive(1, 7, {});
    expect(await fit()).toMatchObject({ trips: 7, factor: null, summary: 'Too little to say: job sheets note 7 usable trips, 8 are needed.' });
    // A sheet that notes no way is no trip
    await drive(20, 3, { travelMinutes: null });
    await drive(8, 1, { travelMinutes: 600, travelKm: null });
    // 0.2 degrees of longitude at 50 degrees north are 14.3 km: 17 km are 1.19 times as long
    expect(await fit()).toMatchObject({
      regionName: 'Everywhere else',
      trips: 8,
      summary: expect.stringMatching(/^8 trips took \d\.\d\d times as long as estimated/),
    });
    await drive(9, 1, {});
    expect((await fit())?.factor).toBeCloseTo(1.19, 2);
    expect((await manager.get('/api/planning/travel/regions').expect(200)).body).toEqual(before);
  });
});

describe('a way that is set by hand', () => {
  test('is set once for each pair, and once in a direction where it holds for both', async () => {
    const there = { fromId: east.siteId, toId: west.siteId, bothWays: true, minutes: 40, km: 28 };
    await put(`overrides/${randomUUID()}`, there).expect(200);
    await put(`overrides/${randomUUID()}`, there).expect(409);
    const back = { ...there, fromId: west.siteId, toId: east.siteId };
    await put(`overrides/${randomUUID()}`, back).expect(409);
    await put(`overrides/${randomUUID()}`, { ...back, bothWays: false, minutes: 55 }).expect(200);
    expect([(await way(east.siteId, west.siteId)).minutes, (await way(west.siteId, east.siteId)).minutes]).toEqual([40, 55]);
  });

  test('leads from one known place to another', async () => {
    const about = { bothWays: true, minutes: 40, km: 28 };
    const told = async (body: object) => pointersOf((await put(`overrides/${randomUUID()}`, { ...about, ...body }).expect(400)).body);
    expect(await told({ fromId: east.siteId, toId: east.siteId })).toEqual(['#/toId']);
    expect(await told({ fromId: randomUUID(), toId: east.siteId })).toEqual(['#/fromId']);
  });
});
