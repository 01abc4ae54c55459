import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let database: Database;
let skid: SmallSkid;
let other: SmallSkid;
let manager: Api;
let technician: Api;
let storekeeper: Api;
let client: Api;
let pumpId: string;

beforeAll(async () => {
  app = await startTestApp();
  database = app.get(Database);
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  [other] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  storekeeper = await signInAs(app, 'storekeeper');
  client = await signInAs(app, 'client', { clientId: skid.clientId });
  const position = await database.prisma.position.create({ data: { clientId: skid.clientId, skidId: skid.id, kind: 'feed pump', name: 'P-101' } });
  pumpId = position.id;
});
afterAll(() => app?.close());
beforeEach(() => database.prisma.job.deleteMany());

const makeDue = (task: string, about: { skid?: SmallSkid; latestOn?: string } = {}) => {
  const { clientId, no } = about.skid ?? skid;
  const on = new Date(`${about.latestOn ?? '2026-12-10'}T00:00:00Z`);
  const positionId = about.skid === undefined ? pumpId : null;
  return database.prisma.due.create({
    data: {
      clientId,
      skidNo: no,
      positionId,
      task,
      limit: 'calendar',
      bestOn: on,
      latestOn: on,
      reason: `${task} is due`,
      computedFrom: [],
      computedAt: on,
      expectedMinutes: 45,
    },
  });
};

describe('a job', () => {
  test('is made of lines of the due list and of own words, and says why each task is to be done', async () => {
    const due = await makeDue('Grease the bearings');
    const { body } = await manager
      .post('/api/jobs', { skidId: skid.id, dueIds: [due.id], tasks: [{ task: 'Look at the noise', positionId: pumpId, expectedMinutes: 20 }] })
      .expect(201);
    expect(body).toMatchObject({ state: 'open', kind: 'service', title: 'Grease the bearings and 1 more', latestOn: '2026-12-10', tasks: 2, minutes: 65 });
    expect(body.taskList[0]).toMatchObject({
      task: 'Grease the bearings',
      reason: 'Grease the bearings is due',
      positionName: 'P-101',
      latestOn: '2026-12-10',
    });
  });

  test('is not made twice for the same due', async () => {
    const due = await makeDue('Grease the bearings');
    const { body } = await manager.post('/api/jobs', { skidId: skid.id, dueIds: [due.id] }).expect(201);
    const again = await manager.post('/api/jobs', { skidId: skid.id, dueIds: [due.id] }).expect(409);
    expect(again.body.title).toBe(`Grease the bearings (P-101, Alder 1) is in job ${body.no} already. Put that job into the visit, or drop it first`);
  });

  test('comes once for one request that is sent twice', async () => {
    const key = randomUUID();
    const send = () =>
      manager
        .call('post', '/api/jobs')
        .set('idempotency-key', key)
        .send({ skidId: skid.id, tasks: [{ task: 'Look' }] });
    const [one, two] = [await send().expect(201), await send().expect(201)];
    expect(two.body.id).toBe(one.body.id);
  });

  test('says what is wrong with the request', async () => {
    const due = await makeDue('Check the drain', { skid: other });
    const refused = async (body: object) => (await manager.post('/api/jobs', { skidId: skid.id, ...body }).expect(400)).body.errors;
    expect(await refused({})).toEqual([{ pointer: '#/tasks', message: expect.stringContaining('name the work') }]);
    expect(await refused({ dueIds: [due.id] })).toEqual([{ pointer: '#/dueIds/0', message: 'Check the drain is due at Birch 1, not at Alder 1' }]);
    expect(await refused({ dueIds: [randomUUID()] })).toEqual([{ pointer: '#/dueIds/0', message: expect.stringContaining('reload the due list') }]);
    expect(await refused({ tasks: [{ task: 'x', positionId: randomUUID() }] })).toEqual([
      { pointer: '#/tasks/0/positionId', message: expect.stringContaining('no position of this skid') },
    ]);
    expect(await refused({ tasks: [null, 'x'] })).not.toEqual([]);
    await manager.post('/api/jobs', { skidId: randomUUID(), tasks: [{ task: 'x' }] }).expect(404);
  });
});

describe('moving a job on', () => {
  const make = async () => (await manager.post('/api/jobs', { skidId: skid.id, tasks: [{ task: 'Look' }] }).expect(201)).body;

  test('keeps who did it, when, and what it waits for', async () => {
    const { id } = await make();
    await storekeeper.post(`/api/jobs/${id}/state`, { to: 'waiting', note: 'Seal kit, two weeks' }).expect(200);
    const { body } = await technician.post(`/api/jobs/${id}/state`, { to: 'open' }).expect(200);
    expect(body).toMatchObject({ state: 'open', stateNote: '' });
    expect(body.changes.map(({ by, from, to, note }: Record<string, string>) => [by, from, to, note])).toEqual([
      ['A manager', '', 'open', ''],
      ['A storekeeper', 'open', 'waiting', 'Seal kit, two weeks'],
      ['A technician', 'waiting', 'open', ''],
    ]);
  });

  test('is refused with the moves that are open to this person', async () => {
    const { id } = await make();
    const { body } = await technician.post(`/api/jobs/${id}/state`, { to: 'finished' }).expect(409);
    expect(body.title).toContain('send the job sheet');
    expect((await technician.post(`/api/jobs/${id}/state`, { to: 'dropped', note: 'x' }).expect(409)).body.title).toContain(
      'From open you may move it to waiting, under way',
    );
    expect((await manager.post(`/api/jobs/${id}/state`, { to: 'dropped' }).expect(400)).body.errors).toEqual([
      { pointer: '#/note', message: 'say why it is dropped' },
    ]);
  });

  test('needs the version that was read to be edited', async () => {
    const { id, version } = await make();
    const { body } = await manager.patch(`/api/jobs/${id}`, version, { title: 'Look at the pump', latestOn: '2026-12-24' }).expect(200);
    expect(body).toMatchObject({ title: 'Look at the pump', latestOn: '2026-12-24' });
    await manager.patch(`/api/jobs/${id}`, version, { title: 'Other' }).expect(412);
  });
});

describe('a client', () => {
  test('sees the jobs of their own skids, and of what became of them what is meant for them', async () => {
    const { body: own } = await manager.post('/api/jobs', { skidId: skid.id, tasks: [{ task: 'Look' }] });
    const { body: foreign } = await manager.post('/api/jobs', { skidId: other.id, tasks: [{ task: 'Look there' }] });
    await manager.post(`/api/jobs/${own.id}/notes`, { note: 'For us alone' }).expect(201);
    await manager.post(`/api/jobs/${own.id}/notes`, { note: 'We come on Monday', toClient: true }).expect(201);
    const { body } = await client.get(`/api/jobs/${own.id}`).expect(200);
    expect(body.changes.map(({ note }: { note: string }) => note)).toEqual(['', 'We come on Monday']);
    await client.get(`/api/jobs/${foreign.id}`).expect(404);
    expect((await client.get('/api/jobs').expect(200)).body.items.map(({ id }: { id: string }) => id)).toEqual([own.id]);
    await client.get(`/api/jobs/${own.id}/sheet`).expect(403);
  });
});
