import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeJob, sheetOf } from '../support/sheets.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let database: Database;
let manager: Api;
let technician: Api;
let skid: SmallSkid;
let housingId: string;
let pumpId: string;
let meterId: string;
let module: string;
let storeId: string;
let made = 0;

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  module = (await database.prisma.item.create({ data: { code: 'MO-1', name: 'Module', kind: 'module' } })).id;
  storeId = (await database.prisma.place.create({ data: { name: 'Store', kind: 'store' } })).id;
  const moves = [{ itemId: module, quantity: '500', toPlaceId: storeId }];
  await manager.post('/api/stock/posts', { id: randomUUID(), kind: 'receive', at: '2026-11-01T08:00:00Z', moves }).expect(201);
});
afterAll(() => app?.close());

beforeEach(async () => {
  made += 1;
  [skid] = (await makeSkids(app, `Alder ${made}`, 1)) as [SmallSkid];
  const { clientId, id: skidId } = skid;
  const position = (kind: string, name: string) => database.prisma.position.create({ data: { clientId, skidId, kind, name } }).then(({ id }) => id);
  housingId = await position('module', 'M-01');
  pumpId = await position('feed pump', 'P-101');
  meterId = (await database.prisma.meter.create({ data: { clientId, positionId: pumpId, kind: 'run hours' } })).id;
});

const send = async (jobId: string, sheet: object, by = technician) => (await by.post(`/api/jobs/${jobId}/reports`, sheet).expect(201)).body;
const takeSecond = (jobId: string, id: string) =>
  manager.post(`/api/jobs/${jobId}/reports/${id}/settle`, { choice: 'take this one', note: 'The first was filled in for another skid' });
const fit = (serialNumber: string, about: object = {}) => ({ positionId: housingId, itemId: module, serialNumber, removalReason: 'worn', ...about });
const fitted = async (positionId = housingId) =>
  (await database.prisma.fitting.findMany({ where: { positionId, removedAt: null }, include: { part: true } })).map(({ part }) => part.serialNumber);
const onHand = async () => {
  const { rows } = await database.pool.query<{ n: number }>(
    'SELECT sum(CASE WHEN to_place_id IS NULL THEN -quantity ELSE quantity END)::float8 AS n FROM stock_move WHERE item_id = $1',
    [module],
  );
  return rows[0]?.n;
};

/** A skid that stopped, a day before the sheets of these tests. */
async function makeBreakdown() {
  const noticed = '2026-11-19T08:00:00Z';
  const words = { title: 'It stands still', request: '', severity: 'no water' };
  const { body: asked } = await manager.post('/api/breakdowns', { skidId: skid.id, ...words, noticedAt: noticed, downFrom: noticed }).expect(201);
  return (await manager.get(`/api/jobs/${asked.jobId}`).expect(200)).body;
}

describe('when the second sheet takes the place of the first', () => {
  test('nothing of the first is left: stock, parts, facts, the state of the skid, follow-ups', async () => {
    const { prisma } = database;
    const job = await makeJob(manager, skid, [{ task: 'Change the module', positionId: housingId }]);
    const old = await prisma.part.create({ data: { itemId: module, serialNumber: 'OLD' } });
    await prisma.fitting.create({ data: { clientId: skid.clientId, positionId: housingId, partId: old.id, fittedAt: new Date('2026-01-01'), fittedBy: 'T' } });
    const before = await onHand();
    const first = sheetOf(job, {
      partsFitted: [fit('NEW', { fromPlaceId: storeId })],
      partsUsed: [{ itemId: module, quantity: '3', placeId: storeId }],
      cleans: [{ kind: 'CIP', chemical: 'citric acid' }],
      meters: [{ meterId, value: 100 }],
      serviceState: 'laid up',
      followUps: [{ title: 'Come again' }, { title: 'No water', severity: 'no water' }],
    });
    expect(await send(job.id, first)).toMatchObject({ state: 'counts' });
    expect([await fitted(), await onHand()]).toEqual([['NEW'], (before ?? 0) - 4]);

    const second = sheetOf(job, { offline: true, outcome: 'to be continued', meters: [{ meterId, value: 90 }], followUps: [{ title: 'Come again' }] });
    await send(job.id, second);
    const answers = await Promise.all([takeSecond(job.id, second.id), takeSecond(job.id, second.id)]);
    expect(answers.map(({ status }) => status).sort((a, b) => a - b)).toEqual([200, 409]);

    expect([await fitted(), await onHand()]).toEqual([['OLD'], before]);
    expect(await prisma.part.count({ where: { serialNumber: 'NEW' } })).toBe(0);
    expect(await prisma.clean.count({ where: { skidId: skid.id } })).toBe(0);
    expect(await prisma.serviceEntry.count({ where: { skidId: skid.id } })).toBe(1);
    expect((await prisma.meterReading.findMany({ where: { meterId } })).map(({ value }) => value)).toEqual([90]);
    expect((await prisma.replacedRecord.findMany({ where: { skidId: skid.id } })).map(({ kind }) => kind).sort()).toEqual([
      'clean',
      'meter_reading',
      'service_entry',
    ]);
    expect((await manager.get(`/api/skids/${skid.id}`).expect(200)).body.serviceState).toBe('in service');
    const follow = await prisma.job.findMany({ where: { followsJobId: job.id }, orderBy: { no: 'asc' } });
    expect(follow.map(({ title, state }) => `${title}: ${state}`)).toEqual(['Come again: dropped', 'No water: dropped', 'Come again: open']);
    expect((await manager.get(`/api/jobs/${job.id}`).expect(200)).body).toMatchObject({ state: 'under way', finishedAt: null, finishedBy: null });
  });

  test('a part that went elsewhere since is in the way, and is named', async () => {
    const fitOld = await makeJob(manager, skid, [{ task: 'Fit', positionId: housingId }]);
    await send(fitOld.id, sheetOf(fitOld, { partsFitted: [fit(`S9-${made}`)] }));
    const swap = await makeJob(manager, skid, [{ task: 'Swap', positionId: housingId }]);
    await send(swap.id, sheetOf(swap, { partsFitted: [fit(`S10-${made}`)] }));
    const move = await makeJob(manager, skid, [{ task: 'Fit elsewhere', positionId: pumpId }]);
    expect(await send(move.id, sheetOf(move, { partsFitted: [fit(`S9-${made}`, { positionId: pumpId })] }))).toMatchObject({ state: 'counts' });
    const second = sheetOf(swap, { offline: true });
    await send(swap.id, second);
    const { body } = await takeSecond(swap.id, second.id).expect(409);
    expect(body.title).toContain('the part that was in M-01 before is in P-101 by now: remove it there first');
    expect([await fitted(), await fitted(pumpId)]).toEqual([[`S10-${made}`], [`S9-${made}`]]);
  });

  test('what it says of a breakdown takes the place of what the first said', async () => {
    const job = await makeBreakdown();
    const first = sheetOf(job, { breakdown: { restoredAt: '2026-11-20T08:00:00Z', mechanism: '1.1', cause: 'A leak' } });
    await send(job.id, first);
    const second = sheetOf(job, { offline: true, breakdown: { restoredAt: '2026-11-20T08:30:00Z', remedy: 'New seal' } });
    await send(job.id, second);
    await takeSecond(job.id, second.id).expect(200);
    const row = await database.prisma.breakdown.findUnique({ where: { jobId: job.id } });
    expect(row).toMatchObject({ restoredAt: new Date('2026-11-20T08:30:00Z'), mechanism: null, cause: '', remedy: 'New seal', endedBy: 'visit' });
  });
});

describe('a sheet', () => {
  const refused = async (jobId: string, sheet: object) => (await technician.post(`/api/jobs/${jobId}/reports`, sheet).expect(422)).body.errors;

  test('that says when a breakdown was over contradicts neither itself nor the clock', async () => {
    const job = await makeBreakdown();
    for (const [field, breakdown] of Object.entries({ restoredAt: { restoredAt: '2026-11-18T08:00:00Z' }, downFrom: { downFrom: '2099-01-01T00:00:00Z' } })) {
      expect(await refused(job.id, sheetOf(job, { breakdown }))).toContainEqual({ pointer: `#/breakdown/${field}`, message: expect.any(String) });
    }
    const plain = await makeJob(manager, skid, [{ task: 'Look' }]);
    expect(await refused(plain.id, sheetOf(plain, { breakdown: { cause: 'x' } }))).toEqual([
      { pointer: '#/breakdown', message: expect.stringContaining('no breakdown') },
    ]);
  });

  test('with parts of another day, sets under one serial number or a meter read twice says so', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look' }]);
    const odd = {
      partsFitted: [fit('X', { at: '2099-01-01T00:00:00Z' }), fit('Y', { setCount: 4, positionId: pumpId })],
      meters: [
        { meterId, value: 1 },
        { meterId, value: 2 },
      ],
    };
    expect((await refused(job.id, sheetOf(job, odd))).map(({ pointer }: { pointer: string }) => pointer)).toEqual([
      '#/partsFitted/0/at',
      '#/partsFitted/1/setCount',
      '#/meters/1/meterId',
    ]);
  });

  test('of one id belongs to one job, also when it comes for two at once', async () => {
    const [one, other] = [await makeJob(manager, skid, [{ task: 'Look' }]), await makeJob(manager, skid, [{ task: 'Look there' }])];
    const id = randomUUID();
    const post = (job: typeof one) => technician.post(`/api/jobs/${job.id}/reports`, sheetOf(job, { id }));
    const answers = await Promise.all([post(one), post(other)]);
    expect(answers.map(({ status }) => status).sort((a, b) => a - b)).toEqual([201, 409]);
    expect(await database.prisma.job.count({ where: { id: { in: [one.id, other.id] }, state: 'finished' } })).toBe(1);
  });

  test('with half a symbol in its text is kept, without that half', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look' }]);
    expect(await send(job.id, sheetOf(job, { note: 'Done \ud83d', signedBy: 'R. \udc00' }))).toMatchObject({ state: 'counts' });
    expect((await manager.get(`/api/jobs/${job.id}`).expect(200)).body.reports[0]).toMatchObject({ note: 'Done \ufffd' });
  });

  test('comes with many others at once, each for a skid of its own', async () => {
    const skids = await makeSkids(app, 'Many', 24);
    const jobs = [];
    for (const each of skids) jobs.push(await makeJob(manager, each, [{ task: 'Look' }]));
    const answers = await Promise.all(jobs.map((job) => technician.post(`/api/jobs/${job.id}/reports`, sheetOf(job))));
    expect(answers.filter(({ status }) => status !== 201)).toEqual([]);
  });
});
