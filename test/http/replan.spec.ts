import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

interface Place {
  readonly day: string;
  readonly people: { name: string }[];
}
interface Plan {
  readonly id: string;
  readonly no: number;
  readonly replacesNo: number | null;
  readonly changes: { id: string; what: string; from: Place | null; to: Place | null; why: string }[];
  readonly lines: { id: string; day: string; people: { personId: string; name: string }[]; work: { id: string }[]; visitId: string | null }[];
  readonly notInPlan: { id: string; promised: boolean; reason: string }[];
}

let app: NestFastifyApplication;
let manager: Api;
let ada: { id: string };
let tom: { id: string };
let skids: SmallSkid[];

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; plans begin on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  [ada, tom] = [await signInByName(app, 'Ada'), await signInByName(app, 'Tom')];
  const [north] = await makeSkids(app, 'North', 1);
  const [south] = await makeSkids(app, 'South', 1);
  skids = [north, south] as SmallSkid[];
  for (const [at, { siteId }] of skids.entries()) {
    await app.get(Database).prisma.site.update({ where: { id: siteId }, data: { latitude: 50.2 - 0.4 * at, longitude: 8 } });
  }
  await knowPerson(manager, ada.id, {});
  await knowPerson(manager, tom.id, {});
});
beforeEach(async () => {
  const { prisma } = app.get(Database);
  await prisma.due.deleteMany();
  await prisma.job.updateMany({ data: { state: 'dropped' } });
  await prisma.visit.updateMany({ data: { state: 'called off' } });
});
afterAll(() => app?.close());

const skid = (at: number) => skids[at] as SmallSkid;
const make = async (): Promise<Plan> => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201)).body;
const replan = async ({ id }: Plan, about: object): Promise<Plan> => (await manager.post(`/api/plans/${id}/replan`, { seconds: 0, ...about }).expect(201)).body;
const changeOf = ({ changes }: Plan, id: string) => changes.find((change) => change.id === id);
const lineOf = ({ lines }: Plan, id: string) => lines.find(({ work }) => work.some((item) => item.id === id));

describe('planning anew', () => {
  test('says of each piece of work what changed and why, and leaves the version before as it was', async () => {
    const due = await makeDue(app, skid(0), 'Change the oil', { minutes: 60 });
    const first = await make();
    const line = lineOf(first, due);
    const [goes] = line?.people ?? [];
    const other = goes?.personId === ada.id ? 'Tom' : 'Ada';
    const fresh = await makeDue(app, skid(1), 'Check the valves', { minutes: 30 });
    const second = await replan(first, { absences: [{ personId: goes?.personId, from: line?.day, until: line?.day }] });
    expect(second).toMatchObject({ replacesNo: first.no, firstDay: '2026-11-30', days: 5 });
    expect(changeOf(second, due)).toMatchObject({
      what: 'moved',
      from: { day: line?.day, people: [{ name: goes?.name }] },
      why: expect.stringMatching(/ is away on /),
    });
    const moved = lineOf(second, due);
    expect(moved?.day !== line?.day || moved?.people[0]?.name === other).toBe(true);
    expect(changeOf(second, fresh)).toMatchObject({ what: 'new', from: null, why: 'was not known to the earlier plan' });
    // Nothing has become known: nothing changes.
    expect((await replan(second, {})).changes.map(({ what }) => what)).toEqual(['unchanged', 'unchanged']);
    const kept = (await manager.get(`/api/plans/${first.id}`).expect(200)).body;
    expect(kept).toEqual({ ...first, replacedById: second.id, replacedByNo: second.no });
  });

  test('leaves what was promised where it is, and tells where it cannot be kept', async () => {
    const { body: visit } = await manager
      .post('/api/visits', { siteId: skid(0).siteId, onDay: '2026-12-01', startTime: '10:00', personIds: [ada.id], minutes: 120 })
      .expect(201);
    await manager.post(`/api/visits/${visit.id}/promise`).expect(200);
    const first = await make();
    const second = await replan(first, { absences: [{ personId: ada.id, from: '2026-12-01', until: '2026-12-02' }] });
    expect(second).toMatchObject({ verdict: 'promise not kept', notInPlan: [{ id: visit.id, promised: true }] });
    expect(changeOf(second, visit.id)).toMatchObject({
      what: 'promise not kept',
      from: { day: '2026-12-01', startAt: '10:00' },
      to: null,
      why: 'Ada is away on 1 Dec. It stands as it is until somebody shifts it',
    });
    expect((await manager.get(`/api/visits/${visit.id}`).expect(200)).body).toMatchObject({ state: 'promised', onDay: '2026-12-01', startTime: '10:00' });
  });

  test('puts urgent work first, reckons with longer work and late parts, and knows what was accepted', async () => {
    const [one, two] = [await makeDue(app, skid(0), 'Change the oil', { minutes: 60 }), await makeDue(app, skid(0), 'Weigh the valves', { minutes: 60 })];
    const first = await make();
    const accepted = await manager.post(`/api/plans/${first.id}/accept`, { lineIds: [lineOf(first, one)?.id] }).expect(200);
    const made = accepted.body.lines[0].visitId;
    expect(lineOf(first, two)?.id).toBe(accepted.body.lines[0].id);
    const later = await makeDue(app, skid(1), 'Grease the motor', { minutes: 60, latestOn: '2026-11-30' });
    const second = await replan(first, { urgentIds: [later], lateParts: [{ id: later, from: '2026-12-03' }], longWork: [{ id: made, minutes: 90 }] });
    expect(changeOf(second, made)).toMatchObject({ what: 'unchanged' });
    expect((lineOf(second, later)?.day ?? '') >= '2026-12-03').toBe(true);
    expect(second.lines.find(({ visitId }) => visitId === made)).toMatchObject({ change: 'stays', workMinutes: 90 });
  });
});

describe('what would be otherwise', () => {
  const whatIf = (about: object) => manager.post('/api/plans/what-if', { firstDay: '2026-11-30', days: 5, seconds: 0, ...about });

  test('with one more, by kind of cost and what would be done, and nothing is kept', async () => {
    const sheet = await app.get(Database).prisma.taskSheet.create({
      data: { task: 'Weld', kind: 'service', versions: { create: { no: 1, createdBy: 'test', usualMinutes: 60, skills: ['Welding'] } } },
    });
    const due = await makeDue(app, skid(0), 'Weld', { taskSheetId: sheet.id });
    const before = (await manager.get('/api/plans').expect(200)).body.items[0].no;
    const { body } = await whatIf({ oneMore: { likePersonId: ada.id, skills: ['Welding'] } }).expect(200);
    expect(body).toMatchObject({ now: { leftOut: 1 }, otherwise: { leftOut: 0, verdict: 'whole' }, placedOtherwise: [{ id: due }], leftOutOtherwise: [] });
    const moreOf = (kind: string) => body.differences.find((cost: { kind: string }) => cost.kind === kind)?.minutes;
    expect([moreOf('work'), moreOf('left out')]).toEqual([60, -1500]);
    expect((await manager.get('/api/plans').expect(200)).body.items[0].no).toBe(before);
  });

  test('with everything a week later, and not without saying what', async () => {
    await makeDue(app, skid(0), 'Paint the frame', { minutes: 60, latestOn: '2026-12-03' });
    const { body } = await whatIf({ laterDays: 7 }).expect(200);
    // On 7 December, four days after the latest day, at 90 minutes of work for each.
    expect(body.differences.find(({ kind }: { kind: string }) => kind === 'late')).toMatchObject({ minutes: 360 });
    expect(pointersOf((await whatIf({}).expect(400)).body)).toEqual(['#/oneMore']);
    expect(pointersOf((await whatIf({ oneMore: { likePersonId: randomUUID(), skills: [] } }).expect(400)).body)).toEqual(['#/oneMore/likePersonId']);
  });

  test('with one piece of work not before a day, and where it would be in each', async () => {
    const [due, other] = [await makeDue(app, skid(0), 'Grease the bearing', { minutes: 60 }), await makeDue(app, skid(1), 'Change the seal', { minutes: 60 })];
    const { body } = await whatIf({ notBefore: [{ id: due, from: '2026-12-08' }] }).expect(200);
    expect(body.days).toBe(15);
    expect(body.later).toMatchObject([{ id: due, kind: 'due', now: { people: [expect.anything()] }, otherwise: { day: '2026-12-08' } }]);
    expect(body.later[0].now.day < '2026-12-05').toBe(true);
    expect(body.leftOutOtherwise).toEqual([]);
    const wrong = [
      { id: other, from: '2026-12-03' },
      { id: randomUUID(), from: '2026-12-03' },
    ];
    expect(pointersOf((await whatIf({ notBefore: wrong }).expect(400)).body)).toEqual(['#/notBefore/1/id']);
    expect(pointersOf((await whatIf({ notBefore: [{ id: due, from: '2028-01-01' }] }).expect(400)).body)).toEqual(['#/notBefore']);
  });

  test('until the caller hangs up: the next search need not wait for it', async () => {
    await makeDue(app, skid(0), 'Tighten the clamps', { minutes: 60 });
    await expect(whatIf({ laterDays: 1, seconds: 20 }).timeout(400)).rejects.toThrow(/[Tt]imeout/);
    const from = performance.now();
    while ((await whatIf({ laterDays: 1 })).status === 409 && performance.now() - from < 5000) await new Promise((done) => setTimeout(done, 50));
    await whatIf({ laterDays: 1 }).expect(200);
  });
});

describe('planning anew is refused', () => {
  test('from a plan that somebody replaced, or that is being replaced; and nothing of a replaced one is accepted', async () => {
    const due = await makeDue(app, skid(0), 'Clean the strainer', { minutes: 60 });
    const first = await make();
    const both = await Promise.all([1, 2].map((seed) => manager.post(`/api/plans/${first.id}/replan`, { seconds: 1, seed })));
    expect(both.map(({ status }) => status).toSorted((a, b) => a - b)).toEqual([201, 409]);
    const late = await manager.post(`/api/plans/${first.id}/replan`, { seconds: 0 }).expect(409);
    expect(late.body.title).toMatch(/^Plan \d+ was replaced by plan \d+ meanwhile: look at that one/);
    const refused = await manager.post(`/api/plans/${first.id}/accept`, { lineIds: [lineOf(first, due)?.id] }).expect(409);
    expect(refused.body.title).toMatch(/was replaced by plan \d+: accept lines of that one/);
  });

  test('for what nobody knows', async () => {
    const first = await make();
    const nobody = randomUUID();
    const about = { absences: [{ personId: nobody, from: '2026-12-01', until: '2026-12-01' }], longWork: [{ id: nobody, minutes: 5 }], urgentIds: [nobody] };
    const { body } = await manager.post(`/api/plans/${first.id}/replan`, about).expect(400);
    expect(pointersOf(body)).toEqual(['#/absences/0/personId', '#/longWork/0/id', '#/urgentIds/0']);
    await manager.post(`/api/plans/${first.id}/replan`, { absences: [{ personId: ada.id, from: '2026-12-02', until: '2026-12-01' }] }).expect(400);
    await manager.post(`/api/plans/${nobody}/replan`, {}).expect(404);
  });
});
