import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

const NOON = { breakMinutes: 30, breakFrom: '11:30', breakUntil: '14:00' };

let app: NestFastifyApplication;
let manager: Api;
let ada: { id: string };
let near: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; the plan begins on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  ada = await signInByName(app, 'Ada');
  [near] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: near.siteId }, data: { latitude: 50.2, longitude: 8 } });
  await knowPerson(manager, ada.id, NOON);
});
beforeEach(async () => {
  const { prisma } = app.get(Database);
  await prisma.due.deleteMany();
  await prisma.job.updateMany({ data: { state: 'dropped' } });
  await prisma.visit.updateMany({ data: { state: 'called off' } });
});
afterAll(() => app?.close());

const plan = async () => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 1, seconds: 0 }).expect(201)).body;
const visit = async (startTime: string, minutes: number) =>
  (await manager.post('/api/visits', { siteId: near.siteId, onDay: '2026-11-30', startTime, personIds: [ada.id], minutes }).expect(201)).body;
const minutesOf = ({ startsAt, endsAt }: { startsAt: string; endsAt: string }) => (Date.parse(endsAt) - Date.parse(startsAt)) / 60_000;

describe('the break of a day', () => {
  test('is planned into long work, and lies in the visit that is made of it', async () => {
    await makeDue(app, near, 'Change the modules', { minutes: 330, bestOn: '2026-11-30', latestOn: '2026-12-01' });
    const made = await plan();
    expect(made.tours).toMatchObject([{ breakAt: { from: '12:30', until: '13:00' }, breakLeftOut: false }]);
    expect(made.lines).toMatchObject([{ workMinutes: 330 }]);
    const { body: accepted } = await manager.post(`/api/plans/${made.id}/accept`, {}).expect(200);
    const { body: there } = await manager.get(`/api/visits/${accepted.lines[0].visitId}`).expect(200);
    expect(there).toMatchObject({ minutes: 330, breakMinutes: 30, startTime: made.lines[0].startAt, consequences: [] });
    expect(minutesOf(there)).toBe(360);
    // Another plan knows the break of the visit, and plans no second one.
    const again = await plan();
    expect(again.lines).toMatchObject([{ change: 'stays', workMinutes: 330, endAt: made.lines[0].endAt }]);
  });

  test('lies in a visit that somebody makes for the whole time of it, and in none beside it', async () => {
    expect(await visit('08:30', 120)).toMatchObject({ breakMinutes: 0, consequences: [] });
    const long = await visit('11:00', 240);
    expect(long).toMatchObject({ minutes: 240, breakMinutes: 30, consequences: [] });
    expect(minutesOf(long)).toBe(270);
    const asked = { startTime: '13:45' };
    const { body: checked } = await manager.post(`/api/visits/${long.id}/check`, asked).expect(200);
    expect(checked).toMatchObject({ breakMinutes: 0 });
    const { body: shifted } = await manager.patch(`/api/visits/${long.id}`, long.version, asked).expect(200);
    expect(shifted.breakMinutes).toBe(0);
  });

  test('is missed where visits of the day leave no room for it, which is said', async () => {
    await visit('09:00', 270);
    expect((await visit('13:35', 120)).consequences).toMatchObject([
      { about: 'break', text: 'Ada has no room on 30 Nov for the break of 30 minutes between 11:30 and 14:00' },
    ]);
  });

  test('gives way to what was promised, and the plan says so', async () => {
    for (const [startTime, minutes] of [['09:00', 270] as const, ['13:35', 120] as const]) {
      const { id } = await visit(startTime, minutes);
      await manager.post(`/api/visits/${id}/promise`).expect(200);
    }
    const made = await plan();
    expect(made.notInPlan).toEqual([]);
    expect(made.tours).toMatchObject([{ breakAt: null, breakLeftOut: true }]);
  });
});
