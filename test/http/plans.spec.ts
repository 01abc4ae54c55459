import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { knowPerson } from '../support/planning.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

interface Plan {
  readonly id: string;
  readonly no: number;
  readonly verdict: string;
  readonly costs: { kind: string; minutes: number; count: number }[];
  readonly lines: {
    id: string;
    change: string;
    visitId: string | null;
    day: string;
    startAt: string;
    endAt: string;
    workMinutes: number;
    travelMinutes: number;
    travelIsEstimated: boolean;
    people: { personId: string }[];
    work: { id: string }[];
    was: { day: string } | null;
    reason: string;
  }[];
  readonly tours: { personId: string; day: string; leaveAt: string; backAt: string; stops: { id: string; kind: string; startAt: string; endAt: string }[] }[];
  readonly notInPlan: { id: string; reason: string; promised: boolean; urgent: boolean }[];
  readonly peopleLeftOut: string[];
}

let app: NestFastifyApplication;
let manager: Api;
let ada: { id: string };
let tom: { id: string };
let near: SmallSkid;
let far: SmallSkid;

const knownAs = (id: string, about: object) => knowPerson(manager, id, about);

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; the plan begins on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  [ada, tom] = [await signInByName(app, 'Ada'), await signInByName(app, 'Tom')];
  [near] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  [far] = (await makeSkids(app, 'Unplaced', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: near.siteId }, data: { latitude: 50.2, longitude: 8 } });
  await knownAs(ada.id, {});
});
beforeEach(async () => {
  const { prisma } = app.get(Database);
  await prisma.due.deleteMany();
  await prisma.job.updateMany({ data: { state: 'dropped' } });
  await prisma.visit.updateMany({ data: { state: 'called off' } });
});
afterAll(() => app?.close());

const plan = async (about: object = {}): Promise<Plan> =>
  (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0, ...about }).expect(201)).body;
const reasonOf = ({ notInPlan }: Plan, id: string) => notInPlan.find((item) => item.id === id)?.reason;
const stopOf = ({ tours }: Plan, id: string) => tours.flatMap((tour) => tour.stops.map((stop) => ({ ...tour, ...stop }))).find((stop) => stop.id === id);
const promise = async (onDay: string, startTime: string, personIds = [ada.id]): Promise<string> => {
  const { body } = await manager.post('/api/visits', { siteId: near.siteId, onDay, startTime, personIds, minutes: 120 }).expect(201);
  await manager.post(`/api/visits/${body.id}/promise`).expect(200);
  return body.id;
};

describe('a plan', () => {
  test('puts what is due at one site into one tour, within the shift, and says who cannot be planned', async () => {
    const dues = [await makeDue(app, near, 'Change the oil', { minutes: 45 }), await makeDue(app, near, 'Check the valves', { minutes: 30 })];
    const found = await plan();
    expect(found.tours).toHaveLength(1);
    const [tour] = found.tours;
    expect(tour?.stops.map(({ id }) => id).sort()).toEqual([...dues].sort());
    expect(tour?.personId).toBe(ada.id);
    expect((tour?.leaveAt ?? '') >= '08:00' && (tour?.backAt ?? '') <= '17:00').toBe(true);
    expect(found.notInPlan).toEqual([]);
    expect(found.peopleLeftOut).toContain('Tom');
  });

  test('keeps a promise as it was given, and other work around it', async () => {
    const visit = await promise('2026-12-01', '10:00');
    const due = await makeDue(app, near, 'Change the oil', { minutes: 45, bestOn: '2026-12-01', latestOn: '2026-12-01' });
    const found = await plan();
    expect(stopOf(found, visit)).toMatchObject({ kind: 'visit', personId: ada.id, day: '2026-12-01', startAt: '10:00', endAt: '12:00' });
    expect(found.lines.find(({ visitId }) => visitId === visit)).toMatchObject({ change: 'stays', reason: expect.stringMatching(/^The client was promised/) });
    const other = stopOf(found, due);
    expect(other?.day).toBe('2026-12-01');
    expect((other?.endAt ?? '') <= '10:00' || (other?.startAt ?? '') >= '12:00').toBe(true);
    expect((await manager.get(`/api/visits/${visit}`).expect(200)).body).toMatchObject({ state: 'promised', onDay: '2026-12-01', startTime: '10:00' });
  });

  test('asks as many questions of the database however much is due', async () => {
    const ask = () => countQueries(() => manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201));
    await makeDue(app, near, 'Task 0', { minutes: 10 });
    await ask();
    // Background work may ask something meanwhile.
    const least = async () => Math.min(await ask(), await ask());
    const few = await least();
    for (let at = 1; at < 12; at += 1) await makeDue(app, near, `Task ${at}`, { minutes: 10 });
    expect(await least()).toBe(few);
  });

  test('is the same for the same seed', async () => {
    for (let at = 0; at < 6; at += 1) await makeDue(app, near, `Task ${at}`, { minutes: 90 });
    const [one, two] = [await plan({ seed: 7 }), await plan({ seed: 7 })];
    expect(one.tours).toEqual(two.tours);
    expect(one.costs).toEqual(two.costs);
  });
});

describe('a plan is kept', () => {
  test('with its visits, why each is there, what it costs by kind and what is left out', async () => {
    const dues = [await makeDue(app, near, 'Change the oil', { minutes: 45 }), await makeDue(app, near, 'Check the valves', { minutes: 30 })];
    const out = await makeDue(app, far, 'Change the oil', { minutes: 45 });
    const made = await plan();
    expect(made).toMatchObject({ firstDay: '2026-11-30', days: 5, madeBy: 'A manager', verdict: 'work left out', replacesNo: null, replacedByNo: null });
    expect(made.notInPlan).toMatchObject([{ id: out, kind: 'due', siteName: 'Unplaced site', urgent: false, promised: false }]);
    const [line] = made.lines;
    expect(made.lines).toHaveLength(1);
    expect(line).toMatchObject({
      change: 'new',
      visitId: null,
      siteName: 'Near site',
      day: '2026-11-30',
      workMinutes: 75,
      travelSource: 'estimated by distance',
      travelIsEstimated: true,
      people: [{ personId: ada.id, name: 'Ada' }],
      was: null,
      reason: 'The latest day of Change the oil, Near 1 is 1 Dec. A day later costs nothing. The only site of the trip.',
      why: { limitOn: '2026-12-01', dayLaterMinutes: 0, withSites: [], kept: null },
      accepted: null,
    });
    expect(line?.work.map(({ id }) => id).sort()).toEqual([...dues].sort());
    const minutesOf = (kind: string) => made.costs.find((cost) => cost.kind === kind)?.minutes;
    expect([minutesOf('work'), minutesOf('travel'), minutesOf('left out')]).toEqual([75, 2 * (line?.travelMinutes ?? 0), 0]);
    expect((await manager.get(`/api/plans/${made.id}`).expect(200)).body).toEqual(made);
    const { body: page } = await manager.get('/api/plans?limit=1').expect(200);
    expect(page.items).toMatchObject([{ id: made.id, lines: 1, toAccept: 1, accepted: 0, leftOut: 1, verdict: 'work left out' }]);
    const { body: next } = await manager.get(`/api/plans?limit=1&cursor=${page.next}`).expect(200);
    expect(next.items[0].no).toBeLessThan(made.no);
  });

  test('once, however often the request comes', async () => {
    const key = randomUUID();
    const send = (days = 5) => manager.post('/api/plans', { firstDay: '2026-11-30', days, seconds: 0 }).set('idempotency-key', key);
    const first = await send().expect(201);
    expect((await send().expect(201)).body).toEqual(first.body);
    await send(6).expect(422);
  });

  test('and shifts what is only planned where that is worth it', async () => {
    const { body: visit } = await manager
      .post('/api/visits', { siteId: near.siteId, onDay: '2026-12-02', startTime: '10:00', personIds: [ada.id], minutes: 120 })
      .expect(201);
    expect((await plan()).lines).toMatchObject([{ visitId: visit.id, change: 'stays', was: null }]);
    await knownAs(ada.id, { daysOff: [{ from: '2026-12-02', until: '2026-12-02', reason: 'Ill' }] });
    const [line] = (await plan()).lines;
    expect(line).toMatchObject({ visitId: visit.id, change: 'shift', was: { day: '2026-12-02', startAt: '10:00', people: [{ personId: ada.id }] } });
    expect(line?.day).not.toBe('2026-12-02');
    // Within the hours in which nothing is shifted it stays, and is told.
    const kept = await plan({ keepHours: 24 * 14 });
    expect(kept.notInPlan).toMatchObject([{ id: visit.id, promised: false }]);
    await knownAs(ada.id, {});
  });
});

describe('lines are accepted', () => {
  const accept = (made: Plan, lineIds?: string[]) => manager.post(`/api/plans/${made.id}/accept`, lineIds === undefined ? {} : { lineIds });
  const visitOf = async (id: string | null | undefined) => (await manager.get(`/api/visits/${id}`).expect(200)).body;

  test('and become visits with their jobs, once, however often they are accepted', async () => {
    await makeDue(app, near, 'Change the oil', { minutes: 45 });
    await makeDue(app, near, 'Check the valves', { minutes: 30 });
    const made = await plan();
    const { body: accepted } = await accept(made).expect(200);
    const [line] = accepted.lines;
    expect(line).toMatchObject({ change: 'new', accepted: { by: 'A manager' }, visitNo: expect.any(Number) });
    expect(await visitOf(line.visitId)).toMatchObject({ state: 'planned', onDay: line.day, startTime: line.startAt, minutes: 75, people: [{ name: 'Ada' }] });
    expect((await visitOf(line.visitId)).jobs).toMatchObject([{ skidName: 'Near 1', state: 'open' }]);
    expect((await accept(made).expect(200)).body).toEqual(accepted);
    // Another plan knows the visit and leaves it where it is, to the minute.
    expect((await plan()).lines).toMatchObject([{ visitId: line.visitId, change: 'stays' }]);
  });

  test('one of two, while the visit of the other was changed since, which is said with both versions', async () => {
    const [one, two] = [
      (await manager.post('/api/visits', { siteId: near.siteId, onDay: '2026-12-02', startTime: '10:00', personIds: [ada.id], minutes: 60 }).expect(201)).body,
      (await manager.post('/api/visits', { siteId: near.siteId, onDay: '2026-12-02', startTime: '13:00', personIds: [ada.id], minutes: 60 }).expect(201)).body,
    ];
    await knownAs(ada.id, { daysOff: [{ from: '2026-12-02', until: '2026-12-02', reason: 'Ill' }] });
    const made = await plan();
    await knownAs(ada.id, {});
    const lineOf = (id: string) => made.lines.find(({ visitId }) => visitId === id);
    expect([lineOf(one.id)?.change, lineOf(two.id)?.change]).toEqual(['shift', 'shift']);
    await manager.patch(`/api/visits/${one.id}`, one.version, { startTime: '11:00', personIds: [tom.id] }).expect(200);
    const ids = made.lines.map(({ id }) => id);
    const { body: refused } = await accept(made, ids).expect(422);
    expect(refused).toMatchObject({ code: 'visits/plan-lines-refused', title: expect.stringContaining('Nothing was accepted') });
    expect(refused.errors).toEqual([
      {
        pointer: `#/lineIds/${ids.indexOf(lineOf(one.id)?.id ?? '')}`,
        message: expect.stringMatching(/the plan knew 2 Dec 10:00 with Ada \(version \d+\), and now it is 2 Dec 11:00 with Tom \(version \d+, planned\)/),
      },
    ]);
    expect(await visitOf(two.id)).toMatchObject({ onDay: '2026-12-02', version: two.version });
    await accept(made, [lineOf(two.id)?.id ?? '']).expect(200);
    expect(await visitOf(two.id)).toMatchObject({ onDay: lineOf(two.id)?.day, startTime: lineOf(two.id)?.startAt, state: 'planned' });
    expect(await visitOf(one.id)).toMatchObject({ onDay: '2026-12-02', startTime: '11:00' });
  });

  test('unless the client was promised the visit since, or its work is elsewhere', async () => {
    const { body: visit } = await manager
      .post('/api/visits', { siteId: near.siteId, onDay: '2026-12-03', startTime: '10:00', personIds: [ada.id], minutes: 60 })
      .expect(201);
    const due = await makeDue(app, near, 'Grease the motor', { minutes: 20 });
    await knownAs(ada.id, { daysOff: [{ from: '2026-12-03', until: '2026-12-03', reason: 'Ill' }] });
    const made = await plan();
    await knownAs(ada.id, {});
    await manager.post(`/api/visits/${visit.id}/promise`).expect(200);
    await manager.post('/api/visits', { siteId: near.siteId, onDay: '2026-12-04', startTime: '10:00', personIds: [tom.id], dueIds: [due] }).expect(201);
    const { body } = await accept(made).expect(422);
    expect(body.errors.map(({ message }: { message: string }) => message).sort()).toEqual([
      expect.stringMatching(/^Near site, .*: .*job \d+/),
      expect.stringMatching(/version \d+, promised\)\. It stays as it is/),
    ]);
    expect(await visitOf(visit.id)).toMatchObject({ state: 'promised', onDay: '2026-12-03', startTime: '10:00' });
  });

  test('of a plan that is there', async () => {
    const made = await plan();
    await accept(made, [randomUUID()]).expect(422);
    await manager.post(`/api/plans/${randomUUID()}/accept`, {}).expect(404);
  });
});

describe('what cannot be planned is said with what to change', () => {
  test('a site without position', async () => {
    const due = await makeDue(app, far, 'Change the oil', { minutes: 45 });
    expect(reasonOf(await plan(), due)).toBe('the site has no position: enter its latitude and longitude');
  });

  test('a skill that nobody has, and one that ends before', async () => {
    const sheet = await app.get(Database).prisma.taskSheet.create({
      data: { task: 'Weld', kind: 'service', versions: { create: { no: 1, createdBy: 'test', usualMinutes: 60, skills: ['Welding'] } } },
    });
    const due = await makeDue(app, near, 'Weld', { taskSheetId: sheet.id });
    expect(reasonOf(await plan(), due)).toMatch(/nobody has every skill that it takes \(Welding\)/);
    await knownAs(ada.id, { skills: [{ skill: 'Welding', lastOn: '2026-11-29' }] });
    expect(reasonOf(await plan(), due)).toMatch(/nobody has every skill/);
    await knownAs(ada.id, { skills: [{ skill: 'Welding', lastOn: '2026-12-04' }] });
    expect(stopOf(await plan(), due)).toBeDefined();
    await knownAs(ada.id, {});
  });

  test('access that is shorter than the work', async () => {
    const put = (version: number, windows: object[]) =>
      manager.put(`/api/planning/sites/${near.siteId}`, { windows, extraMinutes: 0, mayWorkAlone: true }).set('if-match', `"${version}"`).expect(200);
    await put(0, [{ days: [1, 2, 3, 4, 5], from: '09:00', until: '09:30' }]);
    const due = await makeDue(app, near, 'Change the oil', { minutes: 45 });
    expect(reasonOf(await plan(), due)).toBe('the site lets nobody in for the 45 minutes that it takes: agree on a longer time with the client');
    await put(1, []);
  });

  test('a promise on a day off, which nobody shifts silently', async () => {
    const visit = await promise('2026-12-02', '10:00');
    await knownAs(ada.id, { daysOff: [{ from: '2026-12-02', until: '2026-12-02', reason: 'Ill' }] });
    const found = await plan();
    expect(stopOf(found, visit)).toBeUndefined();
    expect(reasonOf(found, visit)).toMatch(/^those who are to go cannot be there then/);
    expect(found).toMatchObject({ verdict: 'promise not kept', notInPlan: [{ id: visit, promised: true }] });
    await knownAs(ada.id, {});
  });

  test('two promises that collide: one is kept, and the other is told', async () => {
    const visits = [await promise('2026-12-03', '10:00'), await promise('2026-12-03', '11:00')];
    const found = await plan();
    const [kept, told] = [visits.filter((id) => stopOf(found, id) !== undefined), visits.filter((id) => reasonOf(found, id) !== undefined)];
    expect([kept.length, told.length]).toEqual([1, 1]);
  });

  test('a promise of somebody of whom nothing is known', async () => {
    const visit = await promise('2026-12-03', '10:00', [tom.id]);
    expect(reasonOf(await plan(), visit)).toBe('of somebody who goes neither home nor shifts are known');
  });
});

describe('a plan is refused', () => {
  test('from a day that has passed', async () => {
    const { body } = await manager.post('/api/plans', { firstDay: '2026-11-24' }).expect(400);
    expect(pointersOf(body)).toEqual(['#/firstDay']);
  });

  test('while another one is searched', async () => {
    // Without work there is nothing to search, and both would be there at once.
    await makeDue(app, near, 'Change the oil', { minutes: 45 });
    const [one, two] = await Promise.all([manager.post('/api/plans', { seconds: 2 }), manager.post('/api/plans', { seconds: 2 })]);
    expect([one.status, two.status].toSorted((a, b) => a - b)).toEqual([201, 409]);
  });
});
