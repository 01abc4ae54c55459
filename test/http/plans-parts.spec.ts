import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { make } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let storekeeper: Api;
let skid: SmallSkid;
let ada: { readonly id: string };

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; the plan begins on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  [manager, storekeeper] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper')];
  [skid] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: skid.siteId }, data: { latitude: 50.2, longitude: 8 } });
  ada = await signInByName(app, 'Ada');
  await knowPerson(manager, ada.id, {});
});
afterAll(() => app?.close());

const receive = (placeId: string, itemId: string, quantity: string) =>
  storekeeper
    .post('/api/stock/posts', { id: randomUUID(), kind: 'receive', at: '2026-11-25T08:00:00Z', note: '', moves: [{ itemId, quantity, toPlaceId: placeId }] })
    .expect(201);

/** A due whose sheet takes two of an item. */
async function dueWithParts(task: string, itemId: string, bestOn?: string): Promise<string> {
  const versions = { create: { no: 1, createdBy: 'test', usualMinutes: 30, waterOffMinutes: 20, steps: [], parts: { create: [{ itemId, quantity: 2 }] } } };
  const sheet = await app.get(Database).prisma.taskSheet.create({ data: { task, kind: 'service', versions } });
  return makeDue(app, skid, task, { taskSheetId: sheet.id, ...(bestOn === undefined ? {} : { bestOn }) });
}
const plan = async (about: object = {}) => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0, ...about }).expect(201)).body;

test('work is planned when its parts are there, and what is neither there nor on its way is named', async () => {
  const store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  const seal = await make(storekeeper, '/api/items', { code: 'S-1', name: 'Seal', kind: 'seal' });
  await dueWithParts('Change the seals', seal.id);
  // Nobody keeps a record of the item: it holds nothing up.
  const { lines } = await plan();
  expect(lines).toMatchObject([{ why: { waterOffMinutes: 20 } }]);
  expect(lines[0].reason).toContain('The water is off for 20 minutes.');
  await receive(store.id, seal.id, '1');
  const short = await plan();
  expect(short.lines).toEqual([]);
  expect(short.notInPlan[0].reason).toBe('1 × S-1 Seal is neither there nor on its way with a day: order it, or have it sent');
  await receive(store.id, seal.id, '1');
  expect((await plan()).lines).toHaveLength(1);
});

test('what lies in a van is there for its person today, for others after a hand-over, and the plan says so', async () => {
  const van = await make(storekeeper, '/api/places', { name: 'Van 1', kind: 'van', personId: ada.id });
  const belt = await make(storekeeper, '/api/items', { code: 'B-1', name: 'Belt', kind: 'other' });
  await app.get(Database).prisma.due.deleteMany();
  await knowPerson(manager, (await signInByName(app, 'Bo')).id, {});
  await dueWithParts('Change the belts', belt.id, '2026-11-25');
  await receive(van.id, belt.id, '2');
  const today = { firstDay: '2026-11-25', days: 1 };
  const { lines } = await plan(today);
  expect(lines.map(({ why }: { why: { vans: object[] } }) => why.vans)).toEqual([[{ name: 'Ada', goes: true }]]);
  expect(lines[0].reason).toContain('Parts are in the van of Ada.');
  await knowPerson(manager, ada.id, { daysOff: [{ from: '2026-11-25', until: '2026-11-25', reason: 'Ill' }] });
  const { lines: none, notInPlan } = await plan(today);
  expect(none).toEqual([]);
  expect(notInPlan[0].reason).toMatch(/^its parts are in the van of Ada, and who can do it has them too late/);
  expect((await plan({ firstDay: '2026-11-25', days: 2 })).lines).toMatchObject([{ day: '2026-11-26' }]);
});

test('overtime that the week has had before the first day is taken off its limit, and named', async () => {
  const { prisma } = app.get(Database);
  await prisma.due.deleteMany();
  await makeDue(app, skid, 'Overhaul the pump', { minutes: 480, bestOn: '2026-11-25' });
  await knowPerson(manager, ada.id, { shiftUntil: '20:00', overtimeHoursAWeek: 3 });
  await prisma.personPlanning.deleteMany({ where: { personId: { not: ada.id } } });
  const today = { firstDay: '2026-11-25', days: 1 };
  expect((await plan(today)).lines).toMatchObject([{ why: { overtimeBefore: [] } }]);
  const visit = { clientId: skid.clientId, siteId: skid.siteId, startTime: '13:00', minutes: 180, createdBy: 'test' };
  const people = { create: { personId: ada.id, clientId: skid.clientId, name: 'Ada' } };
  const finished = await prisma.visit.create({ data: { ...visit, onDay: new Date('2026-11-23'), state: 'finished', people } });
  const job = { clientId: skid.clientId, siteId: skid.siteId, skidId: skid.id, kind: 'service', title: 'Overhaul', createdBy: 'test', state: 'finished' };
  const { id: jobId } = await prisma.job.create({ data: { ...job, visitId: finished.id } });
  // In Madrid it is an hour later: the work ended at 18:00.
  const times = { startedAt: new Date('2026-11-23T12:00:00Z'), finishedAt: new Date('2026-11-23T17:00:00Z') };
  const sheet = { byId: ada.id, by: 'Ada', state: 'counts', minutes: 300, content: {}, contentHash: '', summary: {} };
  await prisma.jobReport.create({ data: { id: randomUUID(), jobId, clientId: skid.clientId, ...times, ...sheet } });
  const reasonOf = async () => {
    const { lines, notInPlan } = await plan(today);
    expect(lines).toEqual([]);
    return notInPlan[0].reason as string;
  };
  const minutesIn = (reason: string) => Number(/Ada has (\d+) minutes of overtime in that week before the plan begins/.exec(reason)?.[1]);
  const known = await reasonOf();
  expect(minutesIn(known)).toBeGreaterThan(90);
  expect(known).not.toContain('estimated');
  // The day after was planned to end half an hour before the regular end.
  await prisma.visit.create({ data: { ...visit, onDay: new Date('2026-11-24'), state: 'promised', people } });
  const more = await reasonOf();
  expect(minutesIn(more)).toBe(2 * minutesIn(known) - 120);
  expect(more).toContain('(estimated)');
});
