import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let alder: SmallSkid;
let birch: SmallSkid;
let manager: Api;
let technician: Api;
let client: Api;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  [alder] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  [birch] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: alder.clientId });
});
afterAll(() => app?.close());

const stop = (about: object = {}) => ({
  skidId: alder.id,
  severity: 'no water',
  title: 'Feed pump stopped',
  request: 'It hums and does not turn.',
  downFrom: '2026-11-25T06:00:00Z',
  ...about,
});
const report = async (by: Api = technician, about: object = {}) =>
  (await by.post('/api/breakdowns', stop(about)).expect(201)).body as { jobId: string; no: number };
const read = async (jobId: string, by: Api = manager) => (await by.get(`/api/jobs/${jobId}/breakdown`).expect(200)).body;

describe('a breakdown', () => {
  test('reported by a client is a job with what is known of it, and its down time runs', async () => {
    const { jobId } = await report(client);
    expect(await read(jobId, client)).toMatchObject({
      state: 'open',
      source: 'client',
      severity: 'no water',
      createdBy: 'A client',
      downFrom: '2026-11-25T06:00:00.000Z',
      restoredAt: null,
      downMinutes: null,
      downTime: 'Down for 3 h so far',
      mechanismInWords: 'not known',
    });
    const { body: job } = await client.get(`/api/jobs/${jobId}`).expect(200);
    expect(job).toMatchObject({
      kind: 'breakdown',
      severity: 'no water',
      taskList: [{ task: 'Feed pump stopped', kind: 'repair' }],
      changes: [{ to: 'open', by: 'A client' }],
    });
  });

  test('sent again with its key is one', async () => {
    const key = randomUUID();
    const send = () =>
      technician
        .post('/api/breakdowns', stop({ title: 'Sent twice' }))
        .set('idempotency-key', key)
        .expect(201);
    expect((await send()).body).toEqual((await send()).body);
    const { body } = await manager.get('/api/breakdowns?find=Sent twice').expect(200);
    expect(body.total).toBe(1);
  });

  test('of another client’s skid is not to be reported, nor read', async () => {
    await client.post('/api/breakdowns', stop({ skidId: birch.id })).expect(404);
    const { jobId } = await report(technician, { skidId: birch.id });
    await client.get(`/api/jobs/${jobId}/breakdown`).expect(404);
    const { body } = await client.get(`/api/breakdowns?skidId=${birch.id}`).expect(200);
    expect(body).toEqual({ items: [], next: null, total: 0 });
  });

  test.each([
    ['a severity of one’s own', { severity: 'bad' }, '#/severity'],
    ['no title', { title: ' ' }, '#/title'],
    ['a stop in the future', { downFrom: '2026-11-26T06:00:00Z' }, '#/downFrom'],
    ['a time without its offset', { noticedAt: '2026-11-25T06:00' }, '#/noticedAt'],
    ['a position of another skid', { positionId: '0190a0b0-0000-7000-8000-000000000001' }, '#/positionId'],
  ])('with %s is refused with a pointer', async (_, about, pointer) => {
    const { body } = await technician.post('/api/breakdowns', stop(about)).expect(400);
    expect(pointersOf(body)).toEqual([pointer]);
  });

  test('is listed with the worst first, those that are over last', async () => {
    const [skid] = (await makeSkids(app, 'Cedar', 1)) as [SmallSkid];
    for (const severity of ['can wait', 'danger', 'less water']) await report(technician, { skidId: skid.id, severity, title: severity });
    const over = await report(technician, { skidId: skid.id, severity: 'danger', title: 'over', downFrom: undefined });
    await technician.post(`/api/jobs/${over.jobId}/telephone`, { note: 'Valve opened', ended: true }).expect(200);
    const titles = async (query: string) =>
      (await manager.get(`/api/breakdowns?skidId=${skid.id}${query}`).expect(200)).body.items.map(({ title }: { title: string }) => title);
    expect(await titles('')).toEqual(['danger', 'less water', 'can wait', 'over']);
    expect(await titles('&open=true&severity=danger')).toEqual(['danger']);
    expect(await titles('&open=false')).toEqual(['over']);
    const { body } = await manager.get(`/api/breakdowns?skidId=${skid.id}&limit=3`).expect(200);
    expect(body.total).toBe(4);
    expect(await titles(`&limit=3&cursor=${body.next}`)).toEqual(['over']);
  });
});

describe('"I have it"', () => {
  test('is said by one person, who can be followed by another on purpose', async () => {
    const { jobId } = await report();
    expect((await technician.post(`/api/jobs/${jobId}/take`).expect(200)).body).toMatchObject({ takenBy: 'A technician', takenAt: NOW.toISOString() });
    await technician.post(`/api/jobs/${jobId}/take`, {}).expect(200);
    const { body } = await manager.post(`/api/jobs/${jobId}/take`, {}).expect(409);
    expect(body.title).toMatch(/^A technician has it/);
    expect((await manager.post(`/api/jobs/${jobId}/take`, { takeOver: true }).expect(200)).body.takenBy).toBe('A manager');
  });

  test('is not said by a client, nor of a job that is no breakdown', async () => {
    const { jobId } = await report();
    await client.post(`/api/jobs/${jobId}/take`, {}).expect(403);
    const request = await client.post('/api/requests', { skidId: alder.id, title: 'New labels', request: 'On both pumps.' }).expect(201);
    await technician.post(`/api/jobs/${request.body.jobId}/take`, {}).expect(404);
  });
});

describe('help by telephone', () => {
  test('is recorded line by line and may end the breakdown without a visit', async () => {
    const { jobId } = await report();
    await technician.post(`/api/jobs/${jobId}/telephone`, { note: 'Breaker is off', ended: false }).expect(200);
    const { body } = await technician
      .post(`/api/jobs/${jobId}/telephone`, {
        note: 'Switched on again, runs',
        ended: true,
        restoredAt: '2026-11-25T08:30:00Z',
        mechanism: '4.4',
        failureMode: 'spurious stop',
        cause: 'Thunderstorm',
      })
      .expect(200);
    expect(body).toMatchObject({
      state: 'finished',
      endedBy: 'telephone',
      telephone: '2026-11-25 09:00 UTC, A technician: Breaker is off\n2026-11-25 09:00 UTC, A technician: Switched on again, runs',
      downMinutes: 150,
      downTime: 'Down for 2 h 30 min',
      mechanismInWords: 'Faulty power (4.4)',
      finishedAt: NOW.toISOString(),
    });
    const { body: again } = await technician.post(`/api/jobs/${jobId}/telephone`, { note: 'Once more', ended: true }).expect(409);
    expect(again.title).toMatch(/is finished already/);
    const job = (await client.get(`/api/jobs/${jobId}`).expect(200)).body;
    expect(job.taskList).toMatchObject([{ outcome: 'not done' }]);
    expect(job.changes.map(({ what }: { what: string }) => what).sort()).toEqual(['state', 'state', 'telephone', 'telephone']);
  });

  test('ends a stop only with the time at which water came again', async () => {
    const { jobId } = await report();
    const end = (restoredAt?: string) => technician.post(`/api/jobs/${jobId}/telephone`, { note: 'Runs', ended: true, restoredAt });
    expect(pointersOf((await end().expect(400)).body)).toEqual(['#/restoredAt']);
    expect(pointersOf((await end('2026-11-25T05:00:00Z').expect(400)).body)).toEqual(['#/restoredAt']);
    expect((await read(jobId)).state).toBe('open');
  });
});

describe('what was found out', () => {
  test('is edited by the version that was read, also later, and every change is kept', async () => {
    const { jobId } = await report();
    const { version } = await read(jobId);
    const change = {
      severity: 'less water',
      restoredAt: '2026-11-25T08:00:00Z',
      repairMinutes: 40,
      mechanism: '2.4',
      failureMode: 'fail to start',
      cause: 'Worn bearing',
      remedy: 'Bearing changed',
    };
    const { body, headers } = await technician.patch(`/api/jobs/${jobId}/breakdown`, version, change).expect(200);
    expect(body).toMatchObject({ ...change, restoredAt: '2026-11-25T08:00:00.000Z', downMinutes: 120 });
    expect(headers.etag).toBe(`"${body.version}"`);
    await technician.patch(`/api/jobs/${jobId}/breakdown`, version, { cause: 'x' }).expect(412);
    await technician.call('patch', `/api/jobs/${jobId}/breakdown`).send({ cause: 'x' }).expect(428);
    const { body: job } = await client.get(`/api/jobs/${jobId}`).expect(200);
    expect(job.changes).toContainEqual(expect.objectContaining({ what: 'severity', from: 'no water', to: 'less water' }));
    expect((await technician.patch(`/api/jobs/${jobId}/breakdown`, body.version, { mechanism: null }).expect(200)).body.mechanism).toBeNull();
  });

  test.each([
    ['a mechanism that the standard has not', { mechanism: '9.9' }, '#/mechanism'],
    ['a restoration before the stop', { restoredAt: '2026-11-24T08:00:00Z' }, '#/restoredAt'],
    ['a repair of less than nothing', { repairMinutes: -1 }, '#/repairMinutes'],
  ])('with %s is refused with a pointer', async (_, change, pointer) => {
    const { jobId } = await report();
    expect(pointersOf((await technician.patch(`/api/jobs/${jobId}/breakdown`, 1, change).expect(400)).body)).toEqual([pointer]);
  });
});

describe('a request', () => {
  const ask = (about: object = {}) => ({ skidId: alder.id, title: 'Filter smells', request: 'Since Monday.', ...about });

  test('is raised by any person of the client, and is a breakdown where it has a severity', async () => {
    const request = (await client.post('/api/requests', ask()).expect(201)).body;
    expect(request).toMatchObject({ kind: 'request', state: 'open', severity: null });
    const broken = (await client.post('/api/requests', ask({ severity: 'less water' })).expect(201)).body;
    expect(broken).toMatchObject({ kind: 'breakdown', severity: 'less water' });
    expect((await read(broken.jobId, client)).source).toBe('client');
    const { body } = await client.get('/api/jobs?kind=request').expect(200);
    expect(body.items.map(({ id }: { id: string }) => id)).toContain(request.jobId);
  });

  test('has photographs, which the client sends to it', async () => {
    const { jobId } = (await client.post('/api/requests', ask()).expect(201)).body;
    const png = Buffer.from('iVBORw0KGgoAAAANSUhEUgAAAAEAAAABCAYAAAAfFcSJAAAADUlEQVR42mNk+M9QDwADhgGAWjR9awAAAABJRU5ErkJggg==', 'base64');
    await client.call('put', `/api/attachments/${randomUUID()}?ofKind=job&ofId=${jobId}`).attach('file', png, 'smell.png').expect(200);
    const { body } = await client.get(`/api/attachments?ofKind=job&ofId=${jobId}`).expect(200);
    expect(body.items).toHaveLength(1);
  });

  test('that says since when the skid stands still asks for the severity', async () => {
    const { body } = await client.post('/api/requests', ask({ downFrom: '2026-11-25T06:00:00Z' })).expect(400);
    expect(pointersOf(body)).toEqual(['#/downFrom']);
  });

  test('and its notes are those of the own site and client alone', async () => {
    const otherSite = await app.get(Database).prisma.site.create({ data: { clientId: alder.clientId, name: 'Other site', timeZone: 'Europe/Madrid' } });
    const elsewhere = await signInAs(app, 'client', { clientId: alder.clientId, siteId: otherSite.id });
    const stranger = await signInAs(app, 'client', { clientId: birch.clientId });
    await elsewhere.post('/api/requests', ask()).expect(404);
    await stranger.post('/api/requests', ask()).expect(404);
    const { jobId } = (await client.post('/api/requests', ask()).expect(201)).body;
    for (const by of [elsewhere, stranger]) await by.post(`/api/requests/${jobId}/notes`, { note: 'Hello' }).expect(404);
    expect((await client.post(`/api/requests/${jobId}/notes`, { note: 'Worse today' }).expect(201)).body).toMatchObject({
      by: 'A client',
      note: 'Worse today',
    });
    await technician.post(`/api/requests/${jobId}/notes`, { note: 'We come on Friday' }).expect(201);
    const { body } = await client.get(`/api/jobs/${jobId}`).expect(200);
    expect(body.changes.map(({ note }: { note: string }) => note)).toEqual(expect.arrayContaining(['Worse today', 'We come on Friday']));
  });

  test('that is over takes no note', async () => {
    const { jobId } = await report(client, { downFrom: undefined });
    await technician.post(`/api/jobs/${jobId}/telephone`, { note: 'Runs', ended: true }).expect(200);
    expect((await client.post(`/api/requests/${jobId}/notes`, { note: 'Thanks' }).expect(409)).body.title).toMatch(/raise a new request/);
  });
});
