import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { runFor } from '../support/cycle-days.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let technician: Api;
let client: Api;
let skid: SmallSkid;
let other: SmallSkid;
let feed: string;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  [skid] = (await makeSkids(app, 'Elm', 1)) as [SmallSkid];
  [other] = (await makeSkids(app, 'Fir', 1)) as [SmallSkid];
  client = await signInAs(app, 'client', { clientId: skid.clientId });
  feed = await transmitter('PT-101', 'feed_pressure');
  await runFor(app, skid, '2026-10-16', 40);
});
afterAll(() => app?.close());

const transmitter = async (name: string, signal: string | null, of = skid): Promise<string> =>
  (await manager.post('/api/positions', { skidId: of.id, kind: 'transmitter', name, signal }).expect(201)).body.id;
const point = (reference: number, asFound: number, asLeft: number | null = null) => ({ reference, asFound, asLeft });
const calibration = (at: string, ...points: ReturnType<typeof point>[]) => ({
  at,
  unit: 'kPa',
  tolerance: 4,
  referenceInstrument: 'Dead-weight tester 7',
  certificateNo: 'C-2026-118',
  nextOn: '2027-11-20',
  points,
});
const calibrate = (positionId: string, body: object, by = technician) => by.post(`/api/positions/${positionId}/calibrations`, body);
const readings = async () =>
  JSON.stringify(await app.get(Database).prisma.cycle.findMany({ orderBy: { startedAt: 'asc' } }), (_, v) => (typeof v === 'bigint' ? String(v) : v));
const doubtfulDays = async () => {
  await app.get(Recompute).now(skid.id);
  const days = await app.get(Database).prisma.dailyCondition.findMany({ where: { skidNo: skid.no }, orderBy: { day: 'asc' } });
  return days.filter(({ doubtful }) => doubtful.length > 0).map(({ day, doubtful }) => [day.toISOString().slice(0, 10), ...doubtful]);
};

describe('a transmitter', () => {
  test('says what it measures, and nothing else does', async () => {
    const { body } = await manager.get(`/api/positions/${feed}`).expect(200);
    expect(body.signal).toBe('feed_pressure');
    const refused = await manager.post('/api/positions', { skidId: skid.id, kind: 'blower', name: 'B-1', signal: 'feed_pressure' }).expect(400);
    expect(refused.body.errors[0].pointer).toBe('#/signal');
    await manager.post('/api/positions', { skidId: skid.id, kind: 'transmitter', name: 'PT-9', signal: 'pressure' }).expect(400);
    await manager.patch(`/api/positions/${feed}`, body.version, { kind: 'blower' }).expect(400);
    await manager.patch(`/api/positions/${feed}`, body.version, { kind: 'blower', signal: null }).expect(200);
    await manager.patch(`/api/positions/${feed}`, body.version + 1, { kind: 'transmitter', signal: 'feed_pressure' }).expect(200);
  });
});

describe('a calibration', () => {
  test('in tolerance leaves the readings as they are', async () => {
    const { body } = await calibrate(feed, calibration('2026-10-31T08:00:00Z', point(0, 1), point(400, 402))).expect(201);
    expect(body).toMatchObject({
      signal: 'feed_pressure',
      worstAsFound: 2,
      asFound: 'in tolerance',
      asLeft: 'in tolerance',
      zeroError: 1,
      spanError: 1,
      doubtful: null,
    });
    const fed = await client.get(`/api/calibrations/${body.id}/fed`).expect(200);
    expect(fed.body).toMatchObject({
      figures: [],
      outlooks: [],
      dues: [],
      summary: ['The instrument was found in tolerance and left so: its readings stand.'],
    });
    expect(await doubtfulDays()).toEqual([]);
  });

  test('out of tolerance marks the days since the last good one, changes no reading, and tells what rests on them', async () => {
    const before = await readings();
    const { body } = await calibrate(feed, { ...calibration('2026-11-20T08:00:00Z', point(0, 12, 0), point(4, 4.12, 4)), unit: 'kPa', tolerance: 4 }).expect(
      201,
    );
    expect(body).toMatchObject({ asFound: 'out of tolerance', asLeft: 'in tolerance', worstAsFound: 12 });
    expect(body.doubtful).toEqual({
      signal: 'feed_pressure',
      fromAt: '2026-10-31T08:00:00.000Z',
      toAt: '2026-11-20T08:00:00.000Z',
      error: 12,
      reason: 'feed pressure was found 12 kPa high on 20 Nov 2026',
    });
    const days = await doubtfulDays();
    expect([days.length, days[0], days.at(-1)]).toEqual([21, ['2026-10-31', 'feed_pressure'], ['2026-11-20', 'feed_pressure']]);
    expect(await readings()).toBe(before);

    const fed = (await client.get(`/api/calibrations/${body.id}/fed`).expect(200)).body;
    expect(fed).toMatchObject({ firstDay: '2026-10-31', lastDay: '2026-11-20' });
    expect(fed.figures).toEqual([
      { figure: 'transmembrane pressure', days: 21 },
      { figure: 'permeability', days: 21 },
    ]);
    expect(fed.outlooks).toEqual([expect.objectContaining({ subject: 'membranes', limitKind: 'permeability', originOn: '2026-11-24' })]);
    expect(fed.dues.map(({ task }: { task: string }) => task)).toEqual(['Recovery clean (CIP)']);
    expect(fed.summary[0]).toBe('Feed pressure was found 12 kPa high on 20 Nov 2026: days from 31 Oct 2026 to 20 Nov 2026 are doubtful.');
  });

  test('is said by the outlook and beside its drawing', async () => {
    const { body } = await client.get(`/api/skids/${skid.id}/trends/permeability`).expect(200);
    const sentence = 'Feed pressure was found 12 kPa high on 20 Nov 2026: days from 31 Oct 2026 to 20 Nov 2026 are doubtful.';
    expect(body.outlook.reason).toContain(sentence);
    expect(body.outlook.dataUsed).toContain(sentence);
    expect(body.remarks).toContain(sentence);
    expect((await client.get(`/api/skids/${skid.id}/trends/cartridge-dp`).expect(200)).body.remarks).not.toContain(sentence);
  });

  test('that is entered late narrows the doubt', async () => {
    await calibrate(feed, calibration('2026-11-10T08:00:00Z', point(0, 1))).expect(201);
    expect((await doubtfulDays())[0]).toEqual(['2026-11-10', 'feed_pressure']);
  });

  test('that leaves the instrument out of tolerance keeps its readings in doubt until the next one', async () => {
    const flow = await transmitter('FT-201', 'filtrate_flow');
    const off = { ...calibration('2026-11-22T08:00:00Z', point(36, 38)), unit: 'm3/h', tolerance: 0.5 };
    const { body } = await calibrate(flow, off).expect(201);
    expect(body.doubtful).toMatchObject({ fromAt: null, toAt: null });
    expect((await doubtfulDays()).at(-1)).toEqual(['2026-11-24', 'filtrate_flow']);
    await calibrate(flow, { ...off, at: '2026-11-23T08:00:00Z', points: [point(36, 36.1)] }).expect(201);
    expect((await client.get(`/api/calibrations/${body.id}`).expect(200)).body.doubtful.toAt).toBe('2026-11-23T08:00:00.000Z');
  });

  test('counts from the fitting of the instrument where that is later, in the unit of the signal', async () => {
    const thermometer = await transmitter('TT-1', 'temperature');
    const { prisma } = app.get(Database);
    const item = await prisma.item.create({ data: { code: 'TT', name: 'Thermometer', kind: 'instrument' } });
    await manager.post(`/api/positions/${thermometer}/fittings`, { itemId: item.id, serialNumber: 'T-5', at: '2026-11-01T10:00:00Z' }).expect(201);
    const { body } = await calibrate(thermometer, { ...calibration('2026-11-21T08:00:00Z', point(32, 36.5, 32)), unit: '[degF]', tolerance: 1 }).expect(201);
    expect(body.doubtful).toMatchObject({ fromAt: '2026-11-01T10:00:00.000Z', reason: 'water temperature was found 4.5 °F high on 21 Nov 2026' });
    expect(body.doubtful.error).toBeCloseTo(2.5, 9);
  });

  test('sent twice with one key is stored once', async () => {
    const body = calibration('2026-11-24T08:00:00Z', point(0, 1));
    const send = (key: string) => manager.call('post', `/api/positions/${feed}/calibrations`).set('idempotency-key', key).send(body);
    const key = randomUUID();
    const one = await send(key).expect(201);
    const two = await send(key).expect(201);
    expect(two.body.id).toBe(one.body.id);
  });
});

describe('the record of calibrations', () => {
  test('is read by the client of the skid, the latest first, in pages', async () => {
    const all = (await client.get(`/api/skids/${skid.id}/calibrations`).expect(200)).body.items;
    const moments: number[] = all.map(({ at }: { at: string }) => Date.parse(at));
    expect(moments).toEqual([...moments].sort((a, b) => b - a));
    expect(all.length).toBeGreaterThan(5);
    const first = (await client.get(`/api/skids/${skid.id}/calibrations?limit=2`).expect(200)).body;
    const second = (await client.get(`/api/skids/${skid.id}/calibrations?limit=200&cursor=${first.next}`).expect(200)).body;
    expect([...first.items, ...second.items].map(({ id }) => id)).toEqual(all.map(({ id }: { id: string }) => id));
    const ofFeed = (await client.get(`/api/positions/${feed}/calibrations`).expect(200)).body.items;
    expect(new Set(ofFeed.map(({ positionName }: { positionName: string }) => positionName))).toEqual(new Set(['PT-101']));
    await client.get(`/api/skids/${skid.id}/calibrations?cursor=e30`).expect(400);
  });

  test('of another client is not there', async () => {
    const theirs = await transmitter('PT-301', 'feed_pressure', other);
    const { body } = await calibrate(theirs, calibration('2026-11-20T08:00:00Z', point(0, 9))).expect(201);
    for (const path of [`skids/${other.id}/calibrations`, `positions/${theirs}/calibrations`, `calibrations/${body.id}`, `calibrations/${body.id}/fed`])
      await client.get(`/api/${path}`).expect(404);
    await calibrate(feed, calibration('2026-11-20T08:00:00Z', point(0, 9)), client).expect(403);
  });
});

describe('a calibration that cannot be so is refused with what to mend', () => {
  const good = calibration('2026-11-19T08:00:00Z', point(0, 1));

  test.each([
    ['a unit of something else', { unit: 'm3/h' }, '#/unit'],
    ['a reference in another unit', { unit: 'bar', points: [point(400, 401)] }, '#/points/0/reference'],
    ['no tolerance', { tolerance: 0 }, '#/tolerance'],
    ['no points', { points: [] }, '#/points'],
    ['a point without its reading', { points: [{ reference: 1 }] }, '#/points/0/asFound'],
    ['no reference instrument', { referenceInstrument: ' ' }, '#/referenceInstrument'],
    ['a next date before it', { nextOn: '2026-11-01' }, '#/nextOn'],
    ['a moment to come', { at: '2027-01-01T00:00:00Z' }, '#/at'],
    ['a moment that is taken', { at: '2026-10-31T08:00:00Z' }, '#/at'],
    ['a signal that nobody knows', { signal: 'pressure' }, '#/signal'],
  ])('%s', async (_, about, pointer) => {
    const { body } = await calibrate(feed, { ...good, ...about }).expect(400);
    expect(body.errors.map((error: { pointer: string }) => error.pointer)).toEqual([pointer]);
  });

  test('an instrument of which nobody says what it measures', async () => {
    const unnamed = await transmitter('AT-1', null);
    const { body } = await calibrate(unnamed, good).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/signal', message: expect.stringContaining('say which signal') }]);
    await calibrate(unnamed, { ...good, signal: 'filtrate_pressure' }).expect(201);
    await calibrate(randomUUID(), good).expect(404);
  });
});
