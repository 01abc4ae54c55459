import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { JobHooks } from '../../src/jobs/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
interface MadeVisit extends Made {
  readonly no: number;
}

let app: NestFastifyApplication;
let manager: Api;
let client: Api;
let ada: { api: Api; id: string };
let tom: { api: Api; id: string };
let alder: SmallSkid[];
let birch: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  [ada, tom] = [await signInByName(app, 'Ada'), await signInByName(app, 'Tom')];
  alder = await makeSkids(app, 'Alder', 3);
  [birch] = (await makeSkids(app, 'Birch', 1, 'America/Denver')) as [SmallSkid];
  client = await signInAs(app, 'client', { clientId: alder[0]?.clientId ?? '' });
});
afterAll(() => app?.close());

const skid = (at: number) => alder[at] as SmallSkid;
const plan = (more: object) => ({ siteId: skid(0).siteId, onDay: '2026-11-30', startTime: '08:00', personIds: [ada.id], ...more });
const makeVisit = (more: object = {}) => make(manager, '/api/visits', plan({ minutes: 60, ...more })) as Promise<MadeVisit>;
const shift = ({ id, version }: Made, change: object) => manager.patch(`/api/visits/${id}`, version, change);
const read = async (id: string, by = manager): Promise<Made> => (await by.get(`/api/visits/${id}`).expect(200)).body;
const texts = (visit: { readonly [field: string]: unknown }) => (visit.consequences as { text: string }[]).map(({ text }) => text);
const titles = (visit: Made) => (visit.jobs as { title: string; skidName: string }[]).map(({ title, skidName }) => `${skidName}: ${title}`);

describe('a visit is made from the due list', () => {
  test('with a job for each skid and a task for each due, and takes as long as these', async () => {
    const dues = [
      await makeDue(app, skid(0), 'Change the oil', { minutes: 45 }),
      await makeDue(app, skid(0), 'Check the valves', { minutes: 30 }),
      await makeDue(app, skid(1), 'Change the cartridges', { minutes: 60 }),
    ];
    const visit = await makeVisit({ dueIds: dues, minutes: null, note: 'Bring cake', noteToClient: 'Somebody must open the gate' });
    expect(visit).toMatchObject({
      siteName: 'Alder site',
      onDay: '2026-11-30',
      startTime: '08:00',
      minutes: 135,
      startsAt: '2026-11-30T07:00:00.000Z',
      endsAt: '2026-11-30T09:15:00.000Z',
      state: 'planned',
      people: [{ personId: ada.id, name: 'Ada' }],
      consequences: [],
      version: expect.any(Number),
    });
    expect(visit.jobs).toHaveLength(2);
    expect(await read(visit.id)).toEqual(visit);
    expect((await manager.get('/api/visits?from=2026-11-30&to=2026-11-30').expect(200)).body.items).toMatchObject([{ id: visit.id, minutes: 135 }]);
    const { tasks } = await app.get(Database).prisma.job.findFirstOrThrow({ where: { visitId: visit.id, skidId: skid(0).id }, include: { tasks: true } });
    expect(tasks.map(({ task }) => task).sort()).toEqual(['Change the oil', 'Check the valves']);
  });

  test('once, however often the request comes', async () => {
    const key = randomUUID();
    const dueIds = [await makeDue(app, skid(2), 'Grease the motor', { minutes: 20 })];
    const send = () => manager.post('/api/visits', plan({ dueIds, onDay: '2026-12-10' })).set('idempotency-key', key);
    const first = await send().expect(201);
    expect((await send().expect(201)).body).toEqual(first.body);
    // The job holds the due: it is not planned twice.
    const twice = await manager.post('/api/visits', plan({ dueIds })).expect(409);
    expect(twice.body.title).toMatch(/job/i);
    await manager.post(`/api/visits/${first.body.id}/call-off`, { reason: 'Test' }).expect(200);
  });

  test('records one after the fact, and says so', async () => {
    expect(texts(await makeVisit({ onDay: '2026-11-20' }))).toEqual(['20 Nov has passed: this records a visit after the fact']);
  });

  test('is refused with what does not fit', async () => {
    const elsewhere = await makeDue(app, birch, 'Change the oil');
    const refused = await manager.post('/api/visits', plan({ dueIds: [elsewhere, NOBODY] })).expect(400);
    expect(refused.body.errors).toEqual([
      { pointer: '#/dueIds/0', message: expect.stringContaining('due at another site than Alder site') },
      { pointer: '#/dueIds/1', message: expect.stringContaining('reload the due list') },
    ]);
    const clientPerson = await app.get(Database).prisma.person.findFirstOrThrow({ where: { role: 'client' } });
    const { id: gone } = await app
      .get(Database)
      .prisma.person.create({ data: { name: 'Gone', email: 'g@x.org', role: 'technician', endedAt: new Date('2026-01-01') } });
    const people = await manager.post('/api/visits', plan({ minutes: 30, personIds: [ada.id, clientPerson.id, gone, NOBODY] })).expect(400);
    expect(people.body.errors.map(({ pointer, message }: { pointer: string; message: string }) => `${pointer} ${message}`)).toEqual([
      '#/personIds/1 A client is a client’s person: send somebody of the staff',
      '#/personIds/2 Gone works here no longer: send somebody else',
      `#/personIds/3 there is no person ${NOBODY}`,
    ]);
  });

  test.each<[object, string]>([
    [{ startTime: '25:00', minutes: 30 }, '#/startTime'],
    [{ startTime: '8:00', minutes: 30 }, '#/startTime'],
    [{ onDay: '2026-02-30', minutes: 30 }, '#/onDay'],
    [{ personIds: [], minutes: 30 }, '#/personIds'],
    [{ personIds: 'me', minutes: 30 }, '#/personIds'],
    [{ siteId: NOBODY, minutes: 30 }, '#/siteId'],
    [{ minutes: 0 }, '#/minutes'],
    [{}, '#/minutes'],
    [{ jobIds: [NOBODY] }, '#/jobIds/0'],
    [{ state: 'promised', minutes: 30 }, '#/state'],
  ])('%j is refused', async (more, pointer) => {
    expect(pointersOf((await manager.post('/api/visits', plan(more)).expect(400)).body)).toContain(pointer);
  });

  test('a site that has ended is not visited', async () => {
    const [ended] = (await makeSkids(app, 'Elm', 1)) as [SmallSkid];
    await app.get(Database).prisma.site.update({ where: { id: ended.siteId }, data: { endedOn: new Date('2026-11-01') } });
    const { body } = await manager.post('/api/visits', plan({ siteId: ended.siteId, minutes: 30 })).expect(400);
    expect(pointersOf(body)).toEqual(['#/siteId']);
  });

  test('only a manager plans', async () => {
    await ada.api.post('/api/visits', plan({ minutes: 30 })).expect(403);
    await client.post('/api/visits', plan({ minutes: 30 })).expect(403);
  });
});

describe('a visit is shifted', () => {
  test('with what follows from it, said before and after', async () => {
    const dueIds = [await makeDue(app, skid(2), 'Check the sensor', { latestOn: '2026-12-01', minutes: 90 })];
    const visit = await makeVisit({ dueIds, minutes: null, onDay: '2026-12-01' });
    const other = await makeVisit({ siteId: birch.siteId, onDay: '2026-12-02', startTime: '23:30', minutes: 90 });
    // 23:30 in Denver is 07:30 of the next day in Madrid.
    const change = { onDay: '2026-12-03', startTime: '08:00' };
    const expected = [
      `Ada is at Birch site on 3 Dec from 07:30 to 09:00 (visit ${other.no})`,
      '2 days after the latest day of Check the sensor at Alder 3 (1 Dec)',
    ];
    const { body: checked } = await manager.post(`/api/visits/${visit.id}/check`, change).expect(200);
    expect([texts(checked), checked.startsAt]).toEqual([expected, '2026-12-03T07:00:00.000Z']);
    expect(await read(visit.id)).toEqual(visit);
    const shifted = (await shift(visit, change).expect(200)).body;
    expect(texts(shifted)).toEqual(expected);
    expect(shifted).toMatchObject({ onDay: '2026-12-03', version: visit.version + 1 });
    expect(shifted.changes.at(-1)).toMatchObject({ by: 'A manager', what: 'time', from: '2026-12-01 08:00', to: '2026-12-03 08:00' });
    await shift(visit, { startTime: '10:00' }).expect(412);
    expect(texts((await shift(shifted, { personIds: [tom.id] }).expect(200)).body)).toEqual(expected.slice(1));
  });

  test('to more people it takes less time, unless somebody said how long', async () => {
    const dueIds = [await makeDue(app, skid(1), 'Clean the strainer', { minutes: 40 }), await makeDue(app, skid(1), 'Grease the pump', { minutes: 40 })];
    const visit = await makeVisit({ dueIds, minutes: null, onDay: '2026-12-15' });
    const both = (await shift(visit, { personIds: [ada.id, tom.id] }).expect(200)).body;
    expect([visit.minutes, both.minutes]).toEqual([80, 40]);
    const given = (await shift(both, { minutes: 200 }).expect(200)).body;
    const alone = (await shift(given, { personIds: [ada.id] }).expect(200)).body;
    expect([given.minutes, alone.minutes]).toEqual([200, 200]);
    expect((await shift(alone, { minutes: null }).expect(200)).body.minutes).toBe(80);
  });

  test('by the clock of its site, on days when that changes too', async () => {
    const visit = await makeVisit({ onDay: '2026-10-25', startTime: '01:30', minutes: 120 });
    expect([visit.startsAt, visit.endsAt]).toEqual(['2026-10-24T23:30:00.000Z', '2026-10-25T01:30:00.000Z']);
    const spring = (await shift(visit, { onDay: '2027-03-28' }).expect(200)).body;
    expect([spring.startsAt, spring.endsAt]).toEqual(['2027-03-28T00:30:00.000Z', '2027-03-28T02:30:00.000Z']);
  });
});

describe('a visit is promised', () => {
  test('which the client then sees, without the department’s note, and hears why it is shifted', async () => {
    const visit = await makeVisit({ onDay: '2026-12-20', note: 'They pay late', noteToClient: 'Keep the tank full' });
    await client.get(`/api/visits/${visit.id}`).expect(404);
    const promised = (await manager.post(`/api/visits/${visit.id}/promise`).expect(200)).body;
    expect(promised).toMatchObject({ state: 'promised', promisedAt: '2026-11-25T09:00:00.000Z' });
    expect((await manager.post(`/api/visits/${visit.id}/promise`).expect(200)).body).toEqual(promised);
    expect(await read(visit.id, client)).toMatchObject({
      state: 'promised',
      note: null,
      noteToClient: 'Keep the tank full',
      people: [{ name: 'Ada' }],
      consequences: [],
    });
    expect((await client.get('/api/visits?from=2026-12-20&to=2026-12-20')).body.items).toMatchObject([{ id: visit.id, note: null }]);
    expect((await client.get(`/api/visits/${visit.id}`)).text).not.toContain('They pay late');
    await client.get(`/api/visits/${visit.id}/kit`).expect(403);

    const { body } = await shift(promised, { onDay: '2026-12-21' }).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/tellClient', message: expect.stringContaining('2026-12-20 at 08:00') }]);
    expect(texts((await manager.post(`/api/visits/${visit.id}/check`, { onDay: '2026-12-21' }).expect(200)).body)).toEqual([
      'The client was promised 20 Dec at 08:00: say why in tellClient, which the client reads',
    ]);
    const shifted = (await shift(promised, { onDay: '2026-12-21', tellClient: 'The part comes late' }).expect(200)).body;
    expect((await read(visit.id, client)).changes).toEqual([
      { at: '2026-11-25T09:00:00.000Z', by: 'A manager', what: 'state', from: 'planned', to: 'promised', note: '2026-12-20 08:00' },
      { at: '2026-11-25T09:00:00.000Z', by: 'A manager', what: 'time', from: '2026-12-20 08:00', to: '2026-12-21 08:00', note: 'The part comes late' },
    ]);
    expect(pointersOf((await shift(shifted, { note: 'x', tellClient: 'Nothing' }).expect(400)).body)).toEqual(['#/tellClient']);
  });

  test('only for a day to come', async () => {
    await manager.post(`/api/visits/${(await makeVisit({ onDay: '2026-11-24' })).id}/promise`).expect(409);
    await manager.post(`/api/visits/${NOBODY}/promise`).expect(404);
  });

  test('a client sees nothing of another client', async () => {
    const { id } = await makeVisit({ siteId: birch.siteId, onDay: '2026-12-22' });
    await manager.post(`/api/visits/${id}/promise`).expect(200);
    await client.get(`/api/visits/${id}`).expect(404);
    const seen = (await client.get(`/api/visits?limit=200&clientId=${birch.clientId}`)).body.items;
    expect(seen).toEqual([]);
  });
});

describe('what is in a visit changes', () => {
  test('by dues and jobs that are put in, and jobs that are taken out and wait again', async () => {
    const visit = await makeVisit({ minutes: null, onDay: '2026-12-16', dueIds: [await makeDue(app, skid(0), 'Test the alarm', { minutes: 15 })] });
    const more = await makeDue(app, skid(1), 'Test the alarm', { minutes: 25 });
    const { body: both } = await manager.post(`/api/visits/${visit.id}/jobs`, { dueIds: [more] }).expect(200);
    expect([both.minutes, both.jobs.length]).toEqual([40, 2]);
    const [first, second] = both.jobs;
    const { body: one } = await manager.delete(`/api/visits/${visit.id}/jobs/${second.id}`).expect(200);
    expect([one.minutes, one.jobs.map(({ id }: Made) => id)]).toEqual([15, [first.id]]);
    const next = await makeVisit({ minutes: null, onDay: '2026-12-17', jobIds: [second.id] });
    expect(titles(next)).toEqual([expect.stringContaining('Alder 2')]);
    const taken = await manager.post(`/api/visits/${visit.id}/jobs`, { jobIds: [second.id] }).expect(400);
    expect(taken.body.errors).toEqual([{ pointer: '#/jobIds/0', message: expect.stringContaining(`in visit ${next.no} already`) }]);
    expect(pointersOf((await manager.post(`/api/visits/${visit.id}/jobs`, {}).expect(400)).body)).toEqual(['#/jobIds']);
    await manager.delete(`/api/visits/${visit.id}/jobs/${second.id}`).expect(404);
    const told = await app.get(Database).prisma.jobChange.findMany({ where: { jobId: second.id, what: 'visit' }, orderBy: { id: 'asc' } });
    expect(told.map(({ from, to }) => `${from} > ${to}`)).toEqual([` > visit ${visit.no}`, `visit ${visit.no} > `, ` > visit ${next.no}`]);
  });

  test('until it is called off, when its jobs wait for another one', async () => {
    const visit = await makeVisit({ minutes: null, onDay: '2026-12-18', dueIds: [await makeDue(app, skid(0), 'Wash the screen', { minutes: 15 })] });
    await manager.post(`/api/visits/${visit.id}/promise`).expect(200);
    expect(pointersOf((await manager.post(`/api/visits/${visit.id}/call-off`, { reason: ' ' }).expect(400)).body)).toEqual(['#/reason']);
    const { body } = await manager.post(`/api/visits/${visit.id}/call-off`, { reason: 'Ice on the road' }).expect(200);
    expect(body).toMatchObject({ state: 'called off', jobs: [] });
    expect(await read(visit.id, client)).toMatchObject({ state: 'called off', changes: [{ to: 'promised' }, { to: 'called off', note: 'Ice on the road' }] });
    const [job] = visit.jobs as Made[];
    expect(await app.get(Database).prisma.job.findUniqueOrThrow({ where: { id: job?.id ?? '' } })).toMatchObject({ visitId: null, state: 'open' });
    await manager.post(`/api/visits/${visit.id}/call-off`, { reason: 'Again' }).expect(409);
    await shift(body, { onDay: '2026-12-19' }).expect(409);
    await shift(body, { note: 'Ice' }).expect(200);
    expect((await makeVisit({ minutes: null, onDay: '2026-12-19', jobIds: [job?.id] })).jobs).toHaveLength(1);
  });
});

describe('a visit follows its jobs', () => {
  const finish = async (job: Made | undefined) => {
    const finished = await app.get(Database).write(async (tx) => {
      const row = await tx.job.update({ where: { id: job?.id ?? '' }, data: { state: 'finished', finishedAt: new Date('2026-11-25T08:55:00Z') } });
      await app.get(JobHooks).tellFinished(tx, row);
      return row;
    });
    return finished.visitId ?? '';
  };
  const move = (job: Made | undefined, to: string, note = '') => ada.api.post(`/api/jobs/${job?.id}/state`, { to, note }).expect(200);
  const withJobs = async (onDay: string, task: string, count = 2) => {
    const dueIds = await Promise.all(alder.slice(0, count).map((each) => makeDue(app, each, task, { minutes: 10 })));
    const visit = await makeVisit({ onDay, minutes: null, dueIds });
    return { visit, jobs: visit.jobs as Made[] };
  };

  test('under way with the first, finished with the last', async () => {
    const { visit, jobs } = await withJobs('2026-11-25', 'Tighten the flanges');
    await manager.post(`/api/visits/${visit.id}/promise`).expect(200);
    await move(jobs[0], 'under way');
    expect((await read(visit.id)).state).toBe('under way');
    await manager.post(`/api/visits/${visit.id}/call-off`, { reason: 'Too late' }).expect(409);
    expect((await shift(await read(visit.id), { startTime: '11:00' }).expect(409)).body.title).toContain('under way');
    await finish(jobs[0]);
    expect((await read(visit.id)).state).toBe('under way');
    await manager.delete(`/api/visits/${visit.id}/jobs/${jobs[0]?.id}`).expect(409);
    await finish(jobs[1]);
    const over = await read(visit.id, client);
    expect(over).toMatchObject({ state: 'finished', finishedAt: '2026-11-25T09:00:00.000Z' });
    expect((over.changes as { to: string }[]).map(({ to }) => to)).toEqual(['promised', 'under way', 'finished']);
  });

  test('finished when what is left of it is planned elsewhere, which does not begin the other visit', async () => {
    const { visit, jobs } = await withJobs('2026-11-25', 'Paint the frame');
    await finish(jobs[0]);
    await move(jobs[1], 'under way');
    expect((await manager.delete(`/api/visits/${visit.id}/jobs/${jobs[1]?.id}`).expect(200)).body).toMatchObject({
      state: 'finished',
      jobs: [{ id: jobs[0]?.id }],
    });
    const next = await makeVisit({ onDay: '2026-12-23', minutes: null, jobIds: [jobs[1]?.id] });
    await move(jobs[1], 'waiting', 'for paint');
    await move(jobs[1], 'under way');
    expect((await read(next.id)).state).toBe('planned');
  });

  test('still planned when its jobs are dropped before anybody went', async () => {
    const { visit, jobs } = await withJobs('2026-12-26', 'Polish the cover', 1);
    await manager.post(`/api/jobs/${jobs[0]?.id}/state`, { to: 'dropped', note: 'Nobody sees it' }).expect(200);
    expect(await read(visit.id)).toMatchObject({ state: 'planned', jobs: [] });
  });
});

test('visits are listed by week, by person, by site and by state, a page at a time', async () => {
  const list = async (query: string) => (await manager.get(`/api/visits?${query}`).expect(200)).body;
  const week = await list('from=2027-01-04&to=2027-01-10');
  expect(week.items).toEqual([]);
  const made = [
    await makeVisit({ onDay: '2027-01-05', startTime: '13:00' }),
    await makeVisit({ onDay: '2027-01-05', startTime: '08:00', personIds: [tom.id, ada.id] }),
    await makeVisit({ onDay: '2027-01-04', siteId: birch.siteId }),
    await makeVisit({ onDay: '2027-01-11' }),
  ];
  const ids = (page: { items: Made[] }) => page.items.map(({ id }) => made.findIndex((visit) => visit.id === id));
  expect(ids(await list('from=2027-01-04&to=2027-01-10'))).toEqual([2, 1, 0]);
  expect(ids(await list(`from=2027-01-04&to=2027-01-10&personId=${tom.id}`))).toEqual([1]);
  expect(ids(await list(`from=2027-01-04&siteId=${birch.siteId}`))).toEqual([2]);
  expect(ids(await list(`from=2027-01-04&clientId=${birch.clientId}`))).toEqual([2]);
  expect(ids(await list('from=2027-01-04&state=promised'))).toEqual([]);
  expect(ids(await list('from=2027-01-04&find=birch'))).toEqual([2]);
  expect(ids(await list(`from=2027-01-04&skidId=${birch.id}`))).toEqual([]);
  const first = await list('from=2027-01-04&limit=2');
  expect([ids(first), ids(await list(`from=2027-01-04&limit=2&cursor=${first.next}`))]).toEqual([
    [2, 1],
    [0, 3],
  ]);
  await manager.get('/api/visits?from=2027-13-04').expect(400);
});
