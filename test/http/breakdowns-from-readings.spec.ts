import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import { BreakdownSigns } from '../../src/jobs/breakdown-signs.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOON = new Date('2026-11-25T12:00:00Z');
const HOUR_MS = 3_600_000;
let app: NestFastifyApplication;
let database: Database;
let manager: Api;
let skids: SmallSkid[];
let skid: SmallSkid;
let loadNo: number;
let now = NOON;

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  app.get(Clock).now = () => now;
  manager = await signInAs(app, 'manager');
  skids = await makeSkids(app, 'Dogwood', 12, 'Etc/UTC');
  const [first] = skids as [SmallSkid];
  loadNo = (await database.prisma.load.create({ data: { skidId: first.id, clientId: first.clientId, kind: 'samples', name: 'test', sha256: '', by: 'test' } }))
    .no;
});
afterAll(() => app?.close());
beforeEach(() => {
  now = NOON;
  skid = skids.pop() as SmallSkid;
});

const look = () => app.get(BreakdownSigns).ofSkid(skid);
const made = async () => (await manager.get(`/api/breakdowns?skidId=${skid.id}`).expect(200)).body.items;
const hoursAgo = (hours: number) => new Date(NOON.getTime() - hours * HOUR_MS);

async function integrityTest(outcome: 'passed' | 'failed' | 'not counted', at: Date): Promise<void> {
  const { id: skidId, clientId } = skid;
  const numbers = { startKpa: 100, endKpa: 90, minutes: 5, settledMinutes: 5, temperatureC: 15, decayKpaMin: 2, leastTestKpa: 60 };
  await database.prisma.integrityTest.create({
    data: { ...numbers, skidId, clientId, at, by: 'test', outcome, reasons: ['The pressure falls too fast'], setup: {} },
  });
}

/** Samples, one each quarter of an hour. */
const flow = (from: Date, to: Date, m3h: number) => samples('filtrate_flow', from, to, m3h);
const productTank = (from: Date, to: Date, levelM: number) => samples('tank_level', from, to, levelM);

async function samples(code: string, from: Date, to: Date, value: number): Promise<void> {
  await database.pool.query('SELECT ensure_sample_month($1)', [from]);
  const signal =
    (await database.prisma.signal.findFirst({ where: { skidId: skid.id, code } })) ??
    (await database.prisma.signal.create({ data: { skidId: skid.id, code } }));
  await database.pool.query(
    `INSERT INTO sample (signal_id, at, value, quality, load_no) SELECT $1, at, $4, 0, $5 FROM generate_series($2::timestamptz, $3::timestamptz, '15 minutes') at`,
    [signal.id, from, to, value, loadNo],
  );
}

describe('a failed integrity test', () => {
  test('makes one breakdown of danger, however often the skid is judged, and the pass ends it', async () => {
    await integrityTest('failed', hoursAgo(5));
    await app.get(Recompute).now(skid.id);
    await app.get(Recompute).now(skid.id);
    expect(await made()).toMatchObject([
      { severity: 'danger', source: 'readings', createdBy: 'Readings', state: 'open', noticedAt: hoursAgo(5).toISOString() },
    ]);
    await integrityTest('not counted', hoursAgo(2));
    await look();
    expect(await made()).toMatchObject([{ state: 'open' }]);
    await integrityTest('passed', hoursAgo(1));
    await look();
    expect(await made()).toMatchObject([{ state: 'finished', endedBy: 'itself', restoredAt: hoursAgo(1).toISOString() }]);
  });

  test('that somebody has taken stays in their hands when it passes, and comes again with the next failure', async () => {
    await integrityTest('failed', hoursAgo(5));
    await look();
    const [{ jobId }] = await made();
    await manager.post(`/api/jobs/${jobId}/take`, {}).expect(200);
    await integrityTest('passed', hoursAgo(3));
    await look();
    expect(await made()).toMatchObject([{ state: 'open', endedBy: null, takenBy: 'A manager' }]);
    const { body: job } = await manager.get(`/api/jobs/${jobId}`).expect(200);
    expect(job.changes).toContainEqual(expect.objectContaining({ by: 'Readings', note: expect.stringContaining('no more') }));
    await integrityTest('failed', hoursAgo(1));
    await look();
    expect(await made()).toHaveLength(2);
  });

  test('whose breakdown was ended by hand makes no second one before a test has passed', async () => {
    await integrityTest('failed', hoursAgo(5));
    await look();
    const [{ jobId }] = await made();
    await manager.post(`/api/jobs/${jobId}/telephone`, { note: 'Train is shut, repair on Monday', ended: true }).expect(200);
    await integrityTest('failed', hoursAgo(1));
    await look();
    expect(await made()).toHaveLength(1);
  });

  test('of a skid that is laid up is no breakdown', async () => {
    await database.prisma.skid.update({ where: { id: skid.id }, data: { serviceState: 'laid up' } });
    await integrityTest('failed', hoursAgo(5));
    await look();
    expect(await made()).toEqual([]);
  });
});

describe('no filtrate', () => {
  test('while the product tank is full is standby, and a breakdown once the tank has fallen for a day', async () => {
    await flow(hoursAgo(90), hoursAgo(80), 38);
    await productTank(hoursAgo(90), hoursAgo(80), 4.1);
    await flow(hoursAgo(79.75), hoursAgo(0.25), 0);
    await productTank(hoursAgo(79.75), hoursAgo(0.25), 4);
    await look();
    expect(await made()).toEqual([]);
    now = new Date(NOON.getTime() + 30 * HOUR_MS);
    await flow(NOON, now, 0);
    await productTank(NOON, now, 2.2);
    await look();
    expect(await made()).toMatchObject([{ severity: 'no water', downFrom: hoursAgo(0.25).toISOString() }]);
  });

  test('for a day, while readings arrive, is a breakdown since the first reading without, and over when it flows again', async () => {
    await flow(hoursAgo(60), hoursAgo(30), 38);
    await flow(hoursAgo(29.75), hoursAgo(0.25), 0.1);
    await look();
    await look();
    expect(await made()).toMatchObject([{ severity: 'no water', downFrom: hoursAgo(29.75).toISOString(), downTime: 'Down for 1 d 5 h so far' }]);
    now = new Date(NOON.getTime() + 2 * HOUR_MS);
    await flow(NOON, now, 37);
    await look();
    expect(await made()).toMatchObject([{ state: 'finished', endedBy: 'itself', restoredAt: now.toISOString(), downMinutes: 31.75 * 60 }]);
  });

  test.each([
    ['that lasts less than a day', 30, 22, 0.25],
    ['that nobody could see, for the readings stopped', 100, 99, 60],
  ])('%s is none', async (_, flowed, from, to) => {
    await flow(hoursAgo(flowed + 20), hoursAgo(flowed), 38);
    await flow(hoursAgo(from), hoursAgo(to), 0);
    await look();
    expect(await made()).toEqual([]);
  });

  test('of a skid that has never filtered is none', async () => {
    await flow(hoursAgo(60), hoursAgo(0.25), 0);
    await look();
    expect(await made()).toEqual([]);
  });
});

describe('a tank under three days of cover', () => {
  const cover = async (tankId: string, earlyDays: number) => {
    const data = { clientId: skid.clientId, computedAt: NOON, kind: 'cover', earlyDays, reason: '', dataUsed: [] };
    await database.prisma.tankCover.upsert({ where: { tankId }, create: { tankId, ...data }, update: data });
  };

  test('means less water where its chemical is dosed all the time, else it can wait; it is over when it is filled', async () => {
    const { id: skidId, clientId } = skid;
    const tank = (name: string, doseMgL: number | null) =>
      database.prisma.tank.create({ data: { clientId, skidId, name, chemical: name, shape: 'drum', heightM: 1, capacityL: 200, doseMgL } });
    const [coagulant, acid] = [await tank('Ferric chloride', 3), await tank('Citric acid', null)];
    await cover(coagulant.id, 1.4);
    await cover(acid.id, 2);
    await look();
    await look();
    expect((await made()).map(({ title, severity }: { title: string; severity: string }) => [title, severity])).toEqual([
      ['Ferric chloride runs out', 'less water'],
      ['Citric acid runs out', 'can wait'],
    ]);
    now = new Date(NOON.getTime() + HOUR_MS);
    await cover(coagulant.id, 30);
    await database.prisma.tank.update({ where: { id: acid.id }, data: { endedOn: new Date('2026-11-25') } });
    await look();
    expect((await made()).map(({ state }: { state: string }) => state)).toEqual(['finished', 'finished']);
  });
});
