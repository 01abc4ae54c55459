import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let near: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; the plan begins on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  const ada = await signInByName(app, 'Ada');
  [near] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: near.siteId }, data: { latitude: 50.2, longitude: 8 } });
  await knowPerson(manager, ada.id, {});
});
afterAll(() => app?.close());

const makeJob = async (title: string, bestOn: string): Promise<{ id: string; no: number; version: number }> =>
  (await manager.post('/api/jobs', { skidId: near.id, title, bestOn, tasks: [{ task: title, expectedMinutes: 60 }] }).expect(201)).body;
const plan = async () => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201)).body;

test('a plan does a job after the one before it, though it is wanted sooner; and not at all while that one waits', async () => {
  const [second, first] = [await makeJob('Fill with new media', '2026-11-30'), await makeJob('Mend the vessel', '2026-12-03')];
  await manager.patch(`/api/jobs/${second.id}`, second.version, { afterJobId: first.id }).expect(200);
  const made = await plan();
  const stops = made.tours.flatMap(({ day, stops: of }: { day: string; stops: { id: string; startAt: string }[] }) =>
    of.map(({ id, startAt }) => ({ id, at: `${day} ${startAt}` })),
  );
  const at = (id: string) => stops.find((stop: { id: string }) => stop.id === id)?.at;
  expect(made.notInPlan).toEqual([]);
  expect(at(first.id) < at(second.id)).toBe(true);
  await manager.post(`/api/jobs/${first.id}/state`, { to: 'waiting', note: 'Vessel, 3 weeks' }).expect(200);
  expect((await plan()).notInPlan).toMatchObject([{ id: second.id, reason: `it comes after job ${first.no}, which waits: see there what for` }]);
});
