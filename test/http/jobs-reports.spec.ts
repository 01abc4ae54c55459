import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database, Recompute } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeJob, makeTaskSheet, sheetOf, step } from '../support/sheets.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let database: Database;
let skid: SmallSkid;
let manager: Api;
let technician: Api;
let client: Api;
let pumpId: string;
let meterId: string;
let housingId: string;
let vanId: string;
let seal: { id: string; code: string };
let cartridge: { id: string; code: string };

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  const { prisma } = database;
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: skid.clientId });
  const { clientId, id: skidId } = skid;
  pumpId = (await prisma.position.create({ data: { clientId, skidId, kind: 'feed pump', name: 'P-101' } })).id;
  housingId = (await prisma.position.create({ data: { clientId, skidId, kind: 'pre-filter', name: 'F-01' } })).id;
  meterId = (await prisma.meter.create({ data: { clientId, positionId: pumpId, kind: 'run hours' } })).id;
  vanId = (await prisma.place.create({ data: { name: 'Van 1', kind: 'store' } })).id;
  seal = await prisma.item.create({ data: { code: 'SE-1', name: 'Shaft seal', kind: 'seal' } });
  cartridge = await prisma.item.create({ data: { code: 'CA-1', name: 'Cartridge 5 µm', kind: 'cartridge' } });
  await manager.post(`/api/meters/${meterId}/readings`, { at: '2026-11-01T08:00:00Z', value: 5_000 }).expect(200);
  await manager.post('/api/stock/posts', {
    id: randomUUID(),
    kind: 'receive',
    at: '2026-11-01T08:00:00Z',
    moves: [
      { itemId: seal.id, quantity: '5', toPlaceId: vanId },
      { itemId: cartridge.id, lot: 'L-9', quantity: '21', toPlaceId: vanId },
    ],
  });
});
afterAll(() => app?.close());

const send = (jobId: string, sheet: object, by = technician) => by.post(`/api/jobs/${jobId}/reports`, sheet);
const onHand = async (itemId: string) => {
  const { rows } = await database.pool.query<{ sum: string }>(
    `SELECT coalesce(sum(CASE WHEN to_place_id = $1 THEN quantity ELSE 0 END) - sum(CASE WHEN from_place_id = $1 THEN quantity ELSE 0 END), 0)::float8 AS sum
       FROM stock_move WHERE item_id = $2 AND $1 IN (from_place_id, to_place_id)`,
    [vanId, itemId],
  );
  return Number(rows[0]?.sum);
};
const entries = () => database.prisma.serviceEntry.count({ where: { skidId: skid.id } });

describe('a job sheet', () => {
  test('finishes the job and writes what was done, read and used, all at once', async () => {
    const sheetId = await makeTaskSheet(app, 'Renew the seal', {
      steps: [
        step(1, 'Isolate and lock', { safety: true }),
        step(2, 'Feed pressure', { kind: 'reading', signal: 'feed_pressure', unit: 'kPa', low: 50, high: 300 }),
      ],
    });
    const job = await makeJob(manager, skid, [{ task: 'Renew the seal', positionId: pumpId, taskSheetId: sheetId }]);
    const before = await onHand(seal.id);
    const sheet = sheetOf(job, {
      tasks: [
        {
          taskId: job.taskList[0]?.id,
          outcome: 'done',
          steps: [
            { no: 1, outcome: 'done' },
            { no: 2, outcome: 'done', value: 410, unit: 'kPa' },
          ],
        },
      ],
      partsUsed: [{ itemId: seal.id, quantity: '1', placeId: vanId }],
      meters: [{ meterId, value: 5_300 }],
      followUps: [{ title: 'Look at the coupling', request: 'It is worn' }],
      note: 'The old seal was dry',
    });
    const { body } = await send(job.id, sheet).expect(201);
    expect(body).toMatchObject({ id: sheet.id, state: 'counts', problems: [], jobState: 'finished' });

    const { body: read } = await manager.get(`/api/jobs/${job.id}`).expect(200);
    expect(read).toMatchObject({ state: 'finished', finishedBy: 'A technician' });
    expect(read.taskList[0]).toMatchObject({ outcome: 'done' });
    expect(read.reports[0]).toMatchObject({ state: 'counts', signedBy: 'R. Example', note: 'The old seal was dry' });
    expect(read.reports[0].tasks[0].steps[1]).toEqual({ name: 'Feed pressure', value: '410 kPa', mark: 'outside its limits' });
    expect(await onHand(seal.id)).toBe(before - 1);
    const { rows } = await database.pool.query(`SELECT value FROM hand_value WHERE signal = 'feed_pressure'`);
    expect(rows).toEqual([{ value: 410 }]);
    const { body: jobs } = await manager.get(`/api/jobs?skidId=${skid.id}&kind=follow-up`).expect(200);
    expect(jobs.items[0]).toMatchObject({ title: 'Look at the coupling', state: 'open' });
    const { body: log } = await client.get(`/api/skids/${skid.id}/service-log`).expect(200);
    expect(log.items.map(({ what }: { what: string }) => what)).toContain('Renew the seal, 60 min');
  });

  test('that is sent twice is stored once', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const sheet = sheetOf(job, { partsUsed: [{ itemId: seal.id, quantity: '1', placeId: vanId }] });
    const before = [await onHand(seal.id), await entries()] as const;
    const answers = await Promise.all([send(job.id, sheet), send(job.id, sheet), send(job.id, { ...sheet, offline: true })]);
    expect(answers.map(({ status, body }) => [status, body.state])).toEqual([
      [201, 'counts'],
      [201, 'counts'],
      [201, 'counts'],
    ]);
    expect([await onHand(seal.id), await entries()]).toEqual([before[0] - 1, before[1] + 1]);
    const { body } = await send(job.id, { ...sheet, note: 'other' }).expect(409);
    expect(body.code).toBe('jobs/sheet-id-used');
  });

  test('says at each field what keeps it from counting, and stores nothing', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const before = [await onHand(seal.id), await entries()];
    const { body } = await send(
      job.id,
      sheetOf(job, {
        signedBy: ' ',
        meters: [{ meterId, value: 4_990 }],
        partsUsed: [{ itemId: randomUUID(), quantity: '1', placeId: vanId }],
        partsFitted: [{ positionId: randomUUID(), itemId: cartridge.id }],
        cleans: [{ kind: 'CIP', chemical: 'citric acid', contactMinutes: -5 }],
      }),
    ).expect(422);
    expect(body.code).toBe('jobs/sheet-not-complete');
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer).sort()).toEqual([
      '#/cleans/0/contactMinutes',
      '#/meters/0/value',
      '#/partsFitted/0/positionId',
      '#/partsUsed/0/itemId',
      '#/signedBy',
    ]);
    expect(await onHand(seal.id)).toBe(before[0]);
    expect(await entries()).toBe(before[1]);
    expect((await manager.get(`/api/jobs/${job.id}`)).body).toMatchObject({ state: 'open', reports: [] });
  });

  test('with parts that are not from our stock takes nothing off it', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const held = await onHand(seal.id);
    expect((await send(job.id, sheetOf(job, { partsUsed: [{ itemId: seal.id, quantity: '3' }] })).expect(201)).body.state).toBe('counts');
    expect(await onHand(seal.id)).toBe(held);
    const { body } = await manager.get(`/api/jobs/${job.id}`).expect(200);
    expect(body.reports[0].lines).toContainEqual(expect.objectContaining({ name: 'Part used', value: expect.stringContaining('3 ×') }));
  });

  test('with parts that are not in stock says what the van holds, and takes them when the count was wrong', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const held = await onHand(seal.id);
    const used = { itemId: seal.id, quantity: String(held + 2), placeId: vanId };
    const { body } = await send(job.id, sheetOf(job, { partsUsed: [used] })).expect(422);
    expect(body.errors).toEqual([
      {
        pointer: '#/partsUsed/0/quantity',
        message: `Van 1 holds ${held} of SE-1, and ${held + 2} were taken. Say from which other place, or that the count was wrong`,
      },
    ]);
    expect((await send(job.id, sheetOf(job, { partsUsed: [{ ...used, countWasWrong: true }] })).expect(201)).body.state).toBe('counts');
    expect(await onHand(seal.id)).toBe(0);
    await manager.post('/api/stock/posts', {
      id: randomUUID(),
      kind: 'receive',
      at: '2026-11-20T10:00:00Z',
      moves: [{ itemId: seal.id, quantity: '10', toPlaceId: vanId }],
    });
  });

  test('goes on with the job where the work is to be continued', async () => {
    const job = await makeJob(manager, skid, [{ task: 'First' }, { task: 'Second' }]);
    const [first] = job.taskList;
    const begun = sheetOf(job, { outcome: 'to be continued', signedBy: '', tasks: [{ taskId: first?.id, outcome: 'done' }] });
    expect((await send(job.id, begun).expect(201)).body).toMatchObject({ state: 'counts', jobState: 'under way' });
    const { body: sheet } = await technician.get(`/api/jobs/${job.id}/sheet`).expect(200);
    expect(sheet.tasks.map(({ task }: { task: string }) => task)).toEqual(['Second']);
  });

  test('that is no sheet at all is refused with what is wrong', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look' }]);
    for (const body of [
      {},
      { ...sheetOf(job), id: 'x' },
      { ...sheetOf(job), tasks: [null] },
      { ...sheetOf(job), minutes: 'much' },
      { ...sheetOf(job), partsUsed: 'none' },
    ]) {
      expect((await send(job.id, body).expect(400)).body.errors.length).toBeGreaterThan(0);
    }
    await send(job.id, { ...sheetOf(job), partsUsed: Array.from({ length: 101 }, () => ({ itemId: seal.id, quantity: '1', placeId: vanId })) }).expect(400);
    await send(randomUUID(), sheetOf(job)).expect(404);
  });
});

describe('finishing a job', () => {
  test('begins the counters anew that it should, and ends the dues that it answers', async () => {
    const { prisma } = database;
    const { clientId, id: skidId, no } = skid;
    const valveId = (await prisma.position.create({ data: { clientId, skidId, kind: 'valve', name: 'V-1' } })).id;
    const names = ['Grease the bearings', 'Open the pump', 'Check the coupling'] as const;
    const [grease, open, coupling] = (await Promise.all(names.map((task) => makeTaskSheet(app, task)))) as [string, string, string];
    const rule = { skidId, positionKind: 'feed pump', graceDays: 0 };
    await prisma.upkeepRule.create({ data: { ...rule, task: names[0], runHours: 200, taskSheetId: grease } });
    await prisma.upkeepRule.create({ data: { ...rule, task: names[1], days: 30, contains: [names[0]], taskSheetId: open } });
    await prisma.upkeepRule.create({ data: { ...rule, task: names[2], days: 30, taskSheetId: coupling } });
    await prisma.upkeepRule.create({ data: { ...rule, positionKind: 'valve', task: names[2], days: 30, taskSheetId: coupling } });
    for (const positionId of [pumpId, valveId]) {
      for (const task of names)
        await prisma.serviceEntry.create({ data: { clientId, skidId, positionId, task, at: new Date('2026-10-01T08:00:00Z'), doneBy: 'T', loadNo: 1 } });
    }
    await app.get(Recompute).now(skidId);
    const dues = async () =>
      (await prisma.due.findMany({ where: { skidNo: no, positionId: { in: [pumpId, valveId] } }, orderBy: { task: 'asc' } })).map(
        ({ task, positionId, bestOn }) => `${task} ${positionId === pumpId ? 'P' : 'V'} ${bestOn?.toISOString().slice(0, 10) ?? 'no day'}`,
      );
    const before = await dues();
    expect(before).toContain('Check the coupling P 2026-10-31');
    expect(before).toContain('Check the coupling V 2026-10-31');
    const job = await makeJob(manager, skid, [{ task: names[1], positionId: pumpId, taskSheetId: open }]);
    await send(job.id, sheetOf(job)).expect(201);
    expect((await dues()).filter((due) => due.startsWith('Open the pump'))).toEqual([]); // at once, before anything is computed again
    await app.get(Recompute).now(skidId);
    const after = await dues();
    expect(after).toContain('Open the pump P 2026-12-20');
    expect(after).toContain('Check the coupling P 2026-10-31');
    expect(after).toContain('Check the coupling V 2026-10-31');
    const greased = await prisma.due.findFirst({ where: { skidNo: no, task: names[0] } });
    expect(JSON.stringify(greased?.computedFrom ?? [])).toMatch(/2026-11-20|^\[\]$/); // within the larger service, or together with its next one
  });

  test('records the cartridge change and the clean as facts', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Change the cartridges', positionId: housingId }]);
    const fitted = { positionId: housingId, itemId: cartridge.id, setCount: 7, lot: 'L-9', fromPlaceId: vanId };
    const before = await onHand(cartridge.id);
    await send(
      job.id,
      sheetOf(job, {
        finishedAt: '2026-11-20T09:00:00Z',
        partsFitted: [fitted],
        cleans: [{ kind: 'CIP', chemical: 'citric acid', strengthMgL: 20_000, contactMinutes: 60 }],
      }),
    ).expect(201);
    expect(await onHand(cartridge.id)).toBe(before - 7);
    const { body } = await client.get(`/api/positions/${housingId}/fittings`).expect(200);
    expect(body.items[0]).toMatchObject({ fittedAt: '2026-11-20T09:00:00.000Z', removedAt: null });
    expect(await database.prisma.clean.count({ where: { skidId: skid.id, kind: 'CIP', at: new Date('2026-11-20T09:00:00Z') } })).toBe(1);
  });

  test('of a lay-up stops the skid', async () => {
    const [other] = (await makeSkids(app, 'Cedar', 1)) as [SmallSkid];
    const job = await makeJob(manager, other, [{ task: 'Lay the skid up' }]);
    await send(job.id, sheetOf(job, { serviceState: 'laid up' })).expect(201);
    expect((await manager.get(`/api/skids/${other.id}`).expect(200)).body.serviceState).toBe('laid up');
  });
});

describe('many sheets at once', () => {
  test('more than the database has sessions for, wait for each other and all count', async () => {
    const jobs = await Promise.all(Array.from({ length: 24 }, (_, n) => makeJob(manager, skid, [{ task: `Look ${n}`, positionId: pumpId }])));
    const answers = await Promise.all(jobs.map((job) => send(job.id, sheetOf(job, { readings: [{ signal: 'temperature', value: 14, unit: 'Cel' }] }))));
    expect(new Set(answers.map(({ status, body }) => `${status} ${body.state}`))).toEqual(new Set(['201 counts']));
  });
});

describe('two sheets of one job', () => {
  const twoSheets = async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const used = { itemId: seal.id, placeId: vanId };
    const first = sheetOf(job, { partsUsed: [{ ...used, quantity: '1' }] });
    const second = sheetOf(job, { offline: true, partsUsed: [{ ...used, quantity: '2' }] });
    return { job, first, second };
  };

  test('are both kept, and one counts, whichever comes first', async () => {
    const { job, first, second } = await twoSheets();
    const before = [await onHand(seal.id), await entries()] as const;
    const answers = await Promise.all([send(job.id, first), send(job.id, second, manager)]);
    expect(answers.map(({ status, body }) => `${status} ${body.state}`).sort()).toEqual(['201 counts', '201 second']);
    expect([before[0] - 1, before[0] - 2]).toContain(await onHand(seal.id));
    expect(await entries()).toBe(before[1] + 1);
    const { body } = await manager.get(`/api/jobs?find=${job.no}&state=finished`).expect(200);
    expect(body.items.find(({ id }: { id: string }) => id === job.id)).toMatchObject({ toSettle: 1 });
    expect((await client.get(`/api/jobs/${job.id}`)).body.reports).toHaveLength(1);
  });

  test('are settled by the manager: the second takes the place of the first, posted once', async () => {
    const { job, first, second } = await twoSheets();
    const before = [await onHand(seal.id), await entries()] as const;
    await send(job.id, first).expect(201);
    const { body: late } = await send(job.id, second, manager).expect(201);
    expect(late).toMatchObject({ state: 'second', problems: [{ pointer: '#', message: expect.stringContaining('a manager settles') }] });
    const path = `/api/jobs/${job.id}/reports/${second.id}/settle`;
    await technician.post(path, { choice: 'take this one', note: 'x' }).expect(403);
    const { body } = await manager.post(path, { choice: 'take this one', note: 'The first was a mistake' }).expect(200);
    expect(body.state).toBe('counts');
    expect([await onHand(seal.id), await entries()]).toEqual([before[0] - 2, before[1] + 1]);
    await manager.post(path, { choice: 'keep the first', note: 'x' }).expect(409);
    const { body: read } = await manager.get(`/api/jobs/${job.id}`).expect(200);
    expect(read.reports.map(({ state }: { state: string }) => state)).toEqual(['set aside', 'counts']);
  });

  test('or the second is set aside', async () => {
    const { job, first, second } = await twoSheets();
    await send(job.id, first).expect(201);
    await send(job.id, second).expect(201);
    const before = await onHand(seal.id);
    await manager.post(`/api/jobs/${job.id}/reports/${second.id}/settle`, { choice: 'keep the first', note: 'Same work' }).expect(200);
    expect(await onHand(seal.id)).toBe(before);
  });
});

describe('a sheet that was kept on the device', () => {
  test('is stored whatever is wrong with it, waits, and counts once it is corrected', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    const sheet = sheetOf(job, { offline: true, signedBy: '', partsUsed: [{ itemId: seal.id, quantity: '1', placeId: vanId }] });
    const before = [await onHand(seal.id), await entries()] as const;
    const { body } = await send(job.id, sheet).expect(201);
    expect(body).toMatchObject({ state: 'held', problems: [{ pointer: '#/signedBy' }], jobState: 'open' });
    expect([await onHand(seal.id), await entries()]).toEqual(before);
    expect((await send(job.id, sheet).expect(201)).body).toEqual(body);
    const sent = await manager.get(`/api/jobs/${job.id}/reports/${sheet.id}`).expect(200);
    expect(sent.body).toMatchObject({
      state: 'held',
      problems: [{ pointer: '#/signedBy' }],
      content: { id: sheet.id, partsUsed: [{ itemId: seal.id, quantity: '1', placeId: vanId }] },
    });
    await technician.get(`/api/jobs/${job.id}/reports/${sheet.id}`).expect(403);
    await manager.get(`/api/jobs/${randomUUID()}/reports/${sheet.id}`).expect(404);
    const put = (content: object) => technician.put(`/api/jobs/${job.id}/reports/${sheet.id}`, content);
    expect((await put({ ...sheet, signedBy: 'R. Example' }).expect(200)).body).toMatchObject({ state: 'counts', jobState: 'finished' });
    expect([await onHand(seal.id), await entries()]).toEqual([before[0] - 1, before[1] + 1]);
    await put({ ...sheet, signedBy: 'Again' }).expect(409);
  });

  test('of a job that was dropped is held', async () => {
    const job = await makeJob(manager, skid, [{ task: 'Look', positionId: pumpId }]);
    await manager.post(`/api/jobs/${job.id}/state`, { to: 'dropped', note: 'Not needed' }).expect(200);
    const { body } = await send(job.id, sheetOf(job, { offline: true })).expect(201);
    expect(body).toMatchObject({ state: 'held', problems: [{ message: expect.stringContaining('take it up again') }] });
  });
});
