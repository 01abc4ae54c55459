import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

interface Job {
  readonly id: string;
  readonly no: number;
  readonly version: number;
  readonly title: string;
  readonly afterJob: object | null;
  readonly jobsAfter: object[];
  readonly changes: { readonly what: string; readonly note: string }[];
}

let app: NestFastifyApplication;
let alder: SmallSkid[];
let birch: SmallSkid;
let manager: Api;

beforeAll(async () => {
  app = await startTestApp();
  alder = await makeSkids(app, 'Alder', 2);
  [birch] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
});
afterAll(() => app?.close());

const make = async (task: string, more: object = {}): Promise<Job> =>
  (await manager.post('/api/jobs', { skidId: alder[0]?.id, tasks: [{ task }], ...more }).expect(201)).body;
const read = async (job: Job, by = manager): Promise<Job> => (await by.get(`/api/jobs/${job.id}`).expect(200)).body;
const put = (job: Job, after: Job | { id: string } | null) => manager.patch(`/api/jobs/${job.id}`, job.version, { afterJobId: after?.id ?? null });
const refusal = async (job: Job, after: { id: string }) => (await put(job, after).expect(400)).body.errors;
const short = ({ id, no, title }: Job) => ({ id, no, title, state: 'open' });

test('a job is made or put after another one of its client, which both say, and taken off again', async () => {
  const first = await make('Replace the valve');
  const other = await make('Flush the line', { skidId: alder[1]?.id });
  const second = await make('Test the modules', { afterJobId: first.id });
  expect([second.afterJob, second.jobsAfter, second.changes.at(-1)]).toEqual([
    short(first),
    [],
    expect.objectContaining({ what: 'edited', note: `after job ${first.no}` }),
  ]);
  const moved: Job = (await put(second, other).expect(200)).body;
  expect([moved.afterJob, moved.changes.at(-1)?.note]).toEqual([short(other), `after job ${other.no}, no longer after job ${first.no}`]);
  expect([(await read(first)).jobsAfter, (await read(other)).jobsAfter]).toEqual([[], [short(second)]]);

  const client = await signInAs(app, 'client', { clientId: birch.clientId });
  await client.get(`/api/jobs/${other.id}`).expect(404);
  const own = await signInAs(app, 'client', { clientId: alder[0]?.clientId ?? '' });
  expect((await read(second, own)).afterJob).toEqual(short(other));

  const free: Job = (await put(moved, null).expect(200)).body;
  expect([free.afterJob, free.changes.at(-1)?.note]).toEqual([null, `no longer after job ${other.no}`]);
});

test('what cannot be is refused at its field, with what would do', async () => {
  const [one, two, three] = [await make('One'), await make('Two'), await make('Three')];
  await put(two, one).expect(200);
  await put(three, two).expect(200);
  const at = (message: unknown) => [{ pointer: '#/afterJobId', message }];
  const steps = `job ${one.no} after job ${three.no}, job ${three.no} after job ${two.no}, job ${two.no} after job ${one.no}`;
  expect(await refusal(one, three)).toEqual(
    at(`that makes a circle: ${steps}. Take one of the others off first, or choose another job of this client, or none`),
  );
  expect(await refusal(one, one)).toEqual(at(expect.stringContaining('cannot be done after itself')));
  const elsewhere = await make('Elsewhere', { skidId: birch.id });
  const nowhere = { id: randomUUID() };
  for (const { id } of [elsewhere, nowhere]) expect(await refusal(one, { id })).toEqual(at(expect.stringContaining(`this client has no job ${id}`)));
  const asNew = await manager.post('/api/jobs', { skidId: alder[0]?.id, tasks: [{ task: 'New' }], afterJobId: elsewhere.id }).expect(400);
  expect(asNew.body.errors).toEqual(at(expect.stringContaining('this client has no job')));
  const gone = await make('Dropped');
  await manager.post(`/api/jobs/${gone.id}/state`, { to: 'dropped', note: 'Not wanted' }).expect(200);
  expect(await refusal(one, gone)).toEqual(at(expect.stringContaining(`job ${gone.no} was dropped`)));
});

test('of edits that would make a circle together, one is refused, over jobs that they do not share too', async () => {
  for (let round = 0; round < 3; round++) {
    const jobs = [await make('A'), await make('B'), await make('C'), await make('D')] as [Job, Job, Job, Job];
    const [a, b, c, d] = jobs;
    await put(b, c).expect(200);
    await put(d, a).expect(200);
    const answers = await Promise.all([put(a, b), put(c, d)]);
    expect(answers.map(({ status }) => status).toSorted((one, other) => one - other)).toEqual([200, 400]);
    const [x, y] = [await make('X'), await make('Y')];
    const both = await Promise.all([put(x, y), put(y, x)]);
    expect(both.map(({ status }) => status).toSorted((one, other) => one - other)).toEqual([200, 400]);
  }
});

test('a visit says which of its jobs come before the one that they are to be done after', async () => {
  const { api: technician, id: personId } = await signInByName(app, 'Ada');
  const plan = { siteId: alder[0]?.siteId, startTime: '08:00', personIds: [personId], minutes: 60 };
  const visit = async (onDay: string, jobs: readonly Job[]) =>
    (await manager.post('/api/visits', { ...plan, onDay, jobIds: jobs.map(({ id }) => id) }).expect(201)).body;
  const said = async (id: string) => {
    const { consequences } = (await manager.get(`/api/visits/${id}`).expect(200)).body;
    return consequences.filter(({ about }: { about: string }) => about === 'order').map(({ text }: { text: string }) => text);
  };
  const first = await make('Replace the valve');
  const second = await make('Test the modules', { afterJobId: first.id });
  const early = await visit('2099-12-01', [second]);
  const told = `Job ${second.no} is to be done after job ${first.no}, which`;
  expect(await said(early.id)).toEqual([`${told} is in no visit`]);
  await technician.post(`/api/jobs/${first.id}/state`, { to: 'waiting', note: 'Seal kit' }).expect(200);
  expect(await said(early.id)).toEqual([`${told} waits (Seal kit)`]);
  const late = await visit('2099-12-03', [first]);
  expect(await said(early.id)).toEqual([`${told} is in a later visit (3 Dec 2099, visit ${late.no})`]);
  const shifted = await manager.post(`/api/visits/${early.id}/check`, { onDay: '2099-12-04' }).expect(200);
  expect(shifted.body.consequences.filter(({ about }: { about: string }) => about === 'order')).toEqual([]);
});
