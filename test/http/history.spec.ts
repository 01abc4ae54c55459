import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { pointersOf, takeToBeJudged } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  manager = await signInAs(app, 'manager');
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
});
afterAll(() => app?.close());

const row = (about: object = {}) => ({
  at: '2019-04-10',
  title: 'Pump exchanged',
  kind: 'breakdown',
  minutes: 240,
  failure: { severity: 'no water', downFrom: '2019-04-08', restoredAt: '2019-04-10' },
  ...about,
});
const load = (rows: object[], more: object = {}) => manager.post('/api/jobs/history', { skidId: skid.id, rows, ...more });
const jobs = async () => app.get(Database).prisma.job.count();

describe('older work', () => {
  test('becomes a finished job with its failure, its time and its place in the service log, and the skid is judged anew', async () => {
    await takeToBeJudged(app);
    expect((await load([row({ by: 'Fitter', note: 'Delivered from store' })]).expect(200)).body).toMatchObject({ made: 1, known: 0 });
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    const [{ jobId }] = (await manager.get(`/api/breakdowns?skidId=${skid.id}`).expect(200)).body.items;
    expect((await manager.get(`/api/jobs/${jobId}/breakdown`).expect(200)).body).toMatchObject({
      state: 'finished',
      downTime: 'Down for 2 d',
      repairMinutes: 240,
      endedBy: 'visit',
    });
    expect((await manager.get(`/api/jobs/${jobId}`).expect(200)).body).toMatchObject({
      finishedBy: 'Fitter',
      finishedAt: '2019-04-10T10:00:00.000Z',
      reports: [{ state: 'counts', minutes: 240, by: 'Fitter', note: 'Delivered from store' }],
    });
    const { body: log } = await manager.get(`/api/skids/${skid.id}/service-log`).expect(200);
    expect(log.items).toMatchObject([{ kind: 'service', what: 'Pump exchanged, 240 min' }]);
  });

  test('is known by its moment and title, within a record too', async () => {
    const again = row({ title: 'Oil', kind: 'service', failure: null });
    expect((await load([again, again, row()]).expect(200)).body).toMatchObject({ rows: 3, made: 1, known: 2 });
  });

  test('is checked in a dry run, row by row, and stored whole or not at all', async () => {
    const before = await jobs();
    const rows = [row({ at: '2018-01-01' }), row({ at: '10.04.2019' }), row({ kind: 'service' }), row({ minutes: 99_999 }), row({ positionId: randomUUID() })];
    const pointers = ['#/rows/1/at', '#/rows/2/kind', '#/rows/3/minutes', '#/rows/4/positionId'];
    const { body } = await load(rows, { dryRun: true }).expect(200);
    expect(body.problems.map(({ pointer }: { pointer: string }) => pointer)).toEqual(pointers);
    expect(body.problems[0]).toMatchObject({ row: 2, message: expect.stringContaining('10.04.2019') });
    expect(pointersOf((await load(rows).expect(400)).body)).toEqual(pointers);
    expect(await jobs()).toBe(before);
  });

  test.each<[string, object, string]>([
    ['no row', { rows: [] }, '#/rows'],
    ['too many rows', { rows: Array.from({ length: 2001 }, () => row()) }, '#/rows'],
    ['a severity that is none', { rows: [row({ failure: { severity: 'bad' } })] }, '#/rows/0/failure/severity'],
    ['rows that are no objects', { rows: ['x'] }, '#/rows/0'],
  ])('with %s is refused with a pointer', async (_, more, pointer) => {
    const { body } = await load([], more).expect(400);
    expect(pointersOf(body).join()).toContain(pointer);
  });

  test('of a skid that is not there is not found, and is loaded by the manager alone', async () => {
    await load([row()], { skidId: randomUUID() }).expect(404);
    await (await signInAs(app, 'technician')).post('/api/jobs/history', { skidId: skid.id, rows: [row()] }).expect(403);
  });

  test('of two thousand rows is one request', async () => {
    const rows = Array.from({ length: 2000 }, (_, n) => row({ title: `Old work ${n}`, failure: { severity: 'can wait' } }));
    expect((await load(rows).expect(200)).body).toMatchObject({ made: 2000 });
  });
});
