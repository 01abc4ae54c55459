import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import { TaskSheetReader } from '../../src/upkeep/index.js';
import type { Api } from '../support/api.js';
import { makeRuleSet } from '../support/rules.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;
let grease: string;
let oil: string;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  [skid] = (await makeSkids(app, 'Elm', 1)) as [SmallSkid];
  const { prisma } = app.get(Database);
  const item = (code: string) => prisma.item.create({ data: { code, name: code, kind: 'lubricant', unit: 'LTR' } }).then(({ id }) => id);
  [grease, oil] = [await item('GREASE'), await item('OIL')];
});
afterAll(() => app?.close());

const pointersOf = (answer: { body: { errors?: { pointer: string }[] } }) => answer.body.errors?.map(({ pointer }) => pointer) ?? [];
const content = () => ({
  kind: 'service',
  usualMinutes: 45,
  crew: 2,
  waterOffMinutes: 10,
  skills: ['Rolling bearings'],
  tools: ['Grease gun'],
  hazards: ['moving machinery'],
  chemicals: [{ chemical: 'degreaser', litres: 0.2, strength: 'as it comes' }],
  steps: [
    { kind: 'check', text: 'Switched off and locked out', safety: true },
    { kind: 'reading', text: 'Bearing temperature', unit: 'Cel', signal: 'temperature', low: 5, high: 60 },
  ],
  parts: [{ itemId: grease, quantity: '0.10', everyVisit: true }],
});

describe('a task sheet', () => {
  test('has versions: an edit writes the next, and the one before stays as it was', async () => {
    const made = (
      await manager
        .post('/api/task-sheets', { ...content(), task: 'Grease it' })
        .expect(201)
        .expect('etag', '"1"')
    ).body;
    expect(made.latest).toMatchObject({
      no: 1,
      usualMinutes: 45,
      crew: 2,
      steps: [
        { no: 1, safety: true },
        { no: 2, low: 5, high: 60 },
      ],
    });
    expect(made.latest.parts).toEqual([expect.objectContaining({ code: 'GREASE', quantity: '0.1', everyVisit: true })]);
    await manager.put(`/api/task-sheets/${made.id}`, content()).expect(428);
    const edited = (
      await manager
        .put(`/api/task-sheets/${made.id}`, { ...content(), usualMinutes: 60, parts: [] })
        .set('if-match', '"1"')
        .expect(200)
        .expect('etag', '"2"')
    ).body;
    expect(edited).toMatchObject({ latest: { no: 2, usualMinutes: 60, parts: [] }, versions: [{ no: 2 }, { no: 1, createdBy: 'A manager' }] });
    expect((await manager.get(`/api/task-sheets/${made.id}/versions/1`).expect(200)).body).toEqual(made.latest);
    await manager.get(`/api/task-sheets/${made.id}/versions/3`).expect(404);
    await manager.put(`/api/task-sheets/${made.id}`, content()).set('if-match', '"1"').expect(412);
    await manager.post('/api/task-sheets', { ...content(), task: 'Grease it' }).expect(409);
    const reader = app.get(TaskSheetReader);
    const { prisma } = app.get(Database);
    expect(await reader.versions(prisma, [made.latest.id])).toMatchObject([{ no: 1, task: 'Grease it', parts: [{ code: 'GREASE' }] }]);
    expect(await reader.latest(prisma, [made.id])).toMatchObject([{ no: 2, taskSheetId: made.id }]);
  });

  test.each<[string, (sheet: ReturnType<typeof content>) => object, string]>([
    ['no time', (sheet) => ({ ...sheet, usualMinutes: 0 }), '#/usualMinutes'],
    ['a kind that does not exist', (sheet) => ({ ...sheet, kind: 'magic' }), '#/kind'],
    ['a hazard that does not exist', (sheet) => ({ ...sheet, hazards: ['dragons'] }), '#/hazards'],
    ['a reading without a unit', (sheet) => ({ ...sheet, steps: [{ kind: 'reading', text: 'x' }] }), '#/steps/0/unit'],
    ['a unit that the signal is not read in', (sheet) => ({ ...sheet, steps: [{ kind: 'reading', text: 'x', signal: 'tmp', unit: 'm' }] }), '#/steps/0/unit'],
    ['limits the wrong way round', (sheet) => ({ ...sheet, steps: [{ kind: 'reading', text: 'x', unit: 'm', low: 3, high: 1 }] }), '#/steps/0/low'],
    ['a part that does not exist', (sheet) => ({ ...sheet, parts: [{ itemId: randomUUID(), quantity: '1' }] }), '#/parts/0/itemId'],
    ['a quantity that is no decimal number', (sheet) => ({ ...sheet, parts: [{ itemId: grease, quantity: '1,5' }] }), '#/parts/0/quantity'],
    ['a part twice', (sheet) => ({ ...sheet, parts: [...sheet.parts, ...sheet.parts] }), '#/parts'],
  ])('with %s is refused with the field', async (name, change, pointer) => {
    expect(pointersOf(await manager.post('/api/task-sheets', { ...change(content()), task: name }).expect(400))).toContain(pointer);
  });

  test('is listed by name and kind, and ends when nothing needs it', async () => {
    const { id } = (await manager.post('/api/task-sheets', { ...content(), kind: 'repair', task: 'Mend it' }).expect(201)).body;
    expect((await manager.get('/api/task-sheets?kind=repair').expect(200)).body.items).toMatchObject([{ id, task: 'Mend it', latestNo: 1, usualMinutes: 45 }]);
    expect((await manager.get('/api/task-sheets?find=mend').expect(200)).body.items).toHaveLength(1);
    await manager.post('/api/rules', { task: 'Mend it', positionKind: 'skid', skidId: skid.id, days: 9, taskSheetId: id }).expect(201);
    const needed = await manager.post(`/api/task-sheets/${id}/end`, { on: '2026-11-25' }).set('if-match', '"1"').expect(409);
    expect(JSON.stringify(needed.body)).toContain('a rule of a skid');
    const [rule] = (await manager.get(`/api/skids/${skid.id}/rules`)).body.rules;
    await manager.post(`/api/rules/${rule.rule.id}/end`, { on: '2026-11-25' }).set('if-match', '"1"').expect(204);
    await manager.post(`/api/task-sheets/${id}/end`, { on: '2026-11-25' }).set('if-match', '"1"').expect(204);
    expect((await manager.get('/api/task-sheets?kind=repair')).body.items).toEqual([]);
  });
});

describe('suggestions from the work that was done', () => {
  test('say the usual minutes, parts not used and parts not asked for, from three jobs on', async () => {
    const { id, latest } = (await manager.post('/api/task-sheets', { ...content(), task: 'Oil it' }).expect(201)).body;
    const suggestions = async () => (await manager.get(`/api/task-sheets/${id}/suggestions`).expect(200)).body;
    expect((await suggestions()).summary).toContain('Too little to say');
    const work = [50, 70, 60, 65];
    for (const minutes of work) await finishedJob(latest.id, minutes, [{ itemId: oil, quantity: '2' }]);
    // of a job with two tasks, the minutes of each are known only where the report gives them, and its parts are nobody's
    await finishedJob(latest.id, 500, [], { otherTask: true });
    await finishedJob(latest.id, 500, [], { otherTask: true, ownMinutes: 66 });
    expect(await suggestions()).toMatchObject({
      sheetMinutes: 45,
      jobs: 5,
      usualMinutes: 65,
      leastMinutes: 50,
      mostMinutes: 70,
      jobsWithParts: 4,
      parts: [
        { code: 'GREASE', what: 'asked but seldom used', usedIn: 0 },
        { code: 'OIL', what: 'used but not asked', used: 2, usedIn: 4 },
      ],
      summary: 'The last 5 jobs took 65 minutes as a rule (50 to 70); the sheet says 45.',
    });
    expect((await manager.get(`/api/task-sheets/${id}`)).body.versions).toHaveLength(1);
  });
});

async function finishedJob(
  sheetVersionId: string,
  minutes: number,
  partsUsed: object[],
  more: { otherTask?: boolean; ownMinutes?: number } = {},
): Promise<void> {
  const { prisma } = app.get(Database);
  const { id: skidId, clientId, siteId } = skid;
  const task = { clientId, place: 1, task: 'Oil it', outcome: 'done' };
  const job = await prisma.job.create({
    data: { skidId, clientId, siteId, kind: 'service', title: 'Oil', state: 'finished', createdBy: 'test', finishedAt: NOW },
  });
  const { id: taskId } = await prisma.jobTask.create({ data: { ...task, jobId: job.id, sheetVersionId } });
  if (more.otherTask) await prisma.jobTask.create({ data: { ...task, jobId: job.id, place: 2, task: 'Other' } });
  const report = { clientId, byId: randomUUID(), by: 'test', startedAt: NOW, finishedAt: NOW, minutes, contentHash: '', summary: {} };
  const tasks = [{ taskId, ...(more.ownMinutes === undefined ? {} : { minutes: more.ownMinutes }) }];
  await prisma.jobReport.create({ data: { ...report, id: randomUUID(), jobId: job.id, state: 'counts', content: { partsUsed, tasks } } });
  await prisma.jobReport.create({
    data: { ...report, id: randomUUID(), jobId: job.id, minutes: 9999, state: 'second', content: { partsUsed: [{ itemId: grease, quantity: '9' }] } },
  });
}

describe('the load of the coming year', () => {
  test('adds up by week and kind, in hours of people, and tells what a week is made of', async () => {
    const { prisma } = app.get(Database);
    const [plant] = (await makeSkids(app, 'Ash', 1)) as [SmallSkid];
    await prisma.skid.update({ where: { id: plant.id }, data: { commissionedOn: new Date('2026-11-01') } });
    await makeRuleSet(prisma, [plant.id], [{ task: 'Look at it', positionKind: 'skid', days: 28, minutes: 30 }]);
    await app.get(Recompute).now(plant.id);
    const load = (await manager.get(`/api/upkeep/load?skidId=${plant.id}`).expect(200)).body;
    expect(load.weeks).toHaveLength(52);
    expect(load.weeks[0]).toEqual({ week: '2026-11-23', hours: 0.5, tasks: 1, kinds: [{ kind: 'service', hours: 0.5, tasks: 1 }] });
    expect([load.tasks, load.hours]).toEqual([13, 6.5]);
    expect((await manager.get(`/api/upkeep/load?clientId=${plant.clientId}`)).body.tasks).toBe(13);
    expect((await manager.get(`/api/upkeep/load?skidId=${randomUUID()}`)).body.tasks).toBe(0);
    const week = (await manager.get(`/api/upkeep/load/week?week=2026-11-27&skidId=${plant.id}`).expect(200)).body;
    expect(week).toMatchObject([{ skidName: 'Ash 1', task: 'Look at it', times: 1, hours: 0.5 }]);
    await manager.get('/api/upkeep/load/week?week=soon').expect(400);
  });
});
