import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { dayPlus } from '../../src/shared/day.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

/** The 26th has begun at the site in Auckland, where it is ten in the morning. */
const NOW = new Date('2026-11-25T21:00:00Z');
const TODAY = '2026-11-26';
let app: NestFastifyApplication;
let client: Api;
let skids: SmallSkid[];
let other: SmallSkid;

const prisma = () => app.get(Database).prisma;
const water = ({ no, clientId }: SmallSkid, day: string, filtrateM3: number | null, about: object = {}) =>
  prisma().dailyCondition.create({
    data: {
      skidNo: no,
      clientId,
      day: new Date(day),
      cycles: 8,
      filtrationHours: 10,
      filtrateM3,
      filtrateEstimated: false,
      permeabilityCount: 0,
      leftOut: {},
      cartridgeLeftOut: {},
      byHand: false,
      ...about,
    },
  });
const promise = ({ clientId, siteId }: SmallSkid, onDay: string, state = 'promised') =>
  prisma().visit.create({
    data: {
      clientId,
      siteId,
      onDay: new Date(onDay),
      startTime: '08:30',
      minutes: 60,
      state,
      note: 'Bring the spare seal',
      noteToClient: 'Keep the gate open',
      createdBy: 'T',
    },
  });
const ask = (skid: SmallSkid, title: string, about: object = {}) =>
  prisma().job.create({
    data: { clientId: skid.clientId, siteId: skid.siteId, skidId: skid.id, kind: 'request', title, createdBy: 'Ole', createdAt: NOW, ...about },
  });
const read = async (by: Api = client) => (await by.get('/api/start').expect(200)).body;
const site = async (name: string) => (await read()).sites.find((each: { name: string }) => each.name === name);
const skidOf = async (name: string) => (await site('Alder site')).skids.find((each: { name: string }) => each.name === name);

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  skids = await makeSkids(app, 'Alder', 3, 'Pacific/Auckland');
  [other] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  client = await signInAs(app, 'client', { clientId: skids[0]?.clientId as string });
});
afterAll(() => app?.close());

describe('the start page of a client', () => {
  test('adds up the water of thirty whole days at the site, and says what the figure rests on', async () => {
    const [first, second] = skids as [SmallSkid, SmallSkid];
    await water(first, dayPlus(TODAY, -31), 1000);
    await water(first, dayPlus(TODAY, -30), 100);
    await water(first, dayPlus(TODAY, -2), 20.5, { filtrateEstimated: true });
    await water(first, dayPlus(TODAY, -1), 30, { byHand: true });
    await water(first, dayPlus(TODAY, -3), null);
    await water(first, TODAY, 1000);
    await water(second, dayPlus(TODAY, -1), null);
    const asked = { from: '2026-10-27', to: '2026-11-25' };
    expect((await skidOf('Alder 1')).water).toEqual({ ...asked, m3: 150.5, days: 3, estimatedDays: 1, byHandDays: 1 });
    expect((await skidOf('Alder 2')).water).toEqual({ ...asked, m3: null, days: 0, estimatedDays: 0, byHandDays: 0 });
  });

  test('shows how each skid is, the most urgent first, and the worst that is not over', async () => {
    const [, second, third] = skids as [SmallSkid, SmallSkid, SmallSkid];
    const { clientId, no } = second;
    const due = { task: 'Change the oil', limit: 'calendar', reason: 'By the calendar.', computedFrom: [], computedAt: NOW };
    await prisma().due.create({ data: { clientId, skidNo: no, bestOn: new Date('2026-11-20'), latestOn: new Date('2026-11-21'), ...due } });
    for (const [severity, about] of [
      ['less water', {}],
      ['no water', {}],
      ['danger', { restoredAt: NOW }],
    ] as const) {
      const { id } = await ask(third, severity, { kind: 'breakdown' });
      await prisma().breakdown.create({ data: { jobId: id, clientId, skidId: third.id, severity, source: 'client', noticedAt: NOW, ...about } });
    }
    const shown = (await site('Alder site')).skids.map((skid: Record<string, unknown>) => [
      skid.name,
      skid.standing,
      skid.nextTask,
      skid.nextOn,
      skid.breakdown,
    ]);
    expect(shown).toEqual([
      ['Alder 2', 'overdue', 'Change the oil', '2026-11-20', null],
      ['Alder 1', 'no-data', null, null, null],
      ['Alder 3', 'no-data', null, null, 'no water'],
    ]);
    expect(await skidOf('Alder 1')).toMatchObject({ silent: true, lastReadingAt: null });
    await prisma().job.deleteMany({ where: { kind: 'breakdown' } });
  });

  test('tells of the next visit that was promised, with what it is for, and of no other', async () => {
    const [first] = skids as [SmallSkid];
    await promise(first, '2026-11-24');
    await promise(first, '2026-11-27', 'planned');
    expect((await site('Alder site')).nextVisit).toBeNull();
    const later = await promise(first, '2026-12-09');
    const { id } = await promise(first, '2026-12-02');
    const { id: personId } = await prisma().person.create({ data: { name: 'Jo Fell', email: 'jo@example.org', role: 'technician' } });
    await prisma().visitPerson.create({ data: { visitId: id, personId, clientId: first.clientId, name: 'Jo Fell' } });
    await ask(first, 'Change the cartridges', { kind: 'service', visitId: id });
    const { nextVisit } = await site('Alder site');
    expect(nextVisit).toEqual({
      id,
      onDay: '2026-12-02',
      startTime: '08:30',
      state: 'promised',
      noteToClient: 'Keep the gate open',
      people: ['Jo Fell'],
      work: [{ skidName: 'Alder 1', title: 'Change the cartridges' }],
    });
    await ask(first, 'Is the water too warm?', { visitId: later.id });
    expect((await site('Alder site')).requests[0]).toMatchObject({ title: 'Is the water too warm?', visitOn: '2026-12-09', kind: 'request', state: 'open' });
  });

  test('lists five requests that are not over and counts them all', async () => {
    const [, second] = skids as [SmallSkid, SmallSkid];
    for (let index = 1; index <= 6; index++) await ask(second, `Question ${index}`, { createdAt: new Date(NOW.getTime() + index) });
    await ask(second, 'Answered', { state: 'finished', createdAt: new Date(NOW.getTime() + 10) });
    const { requests, openRequests } = await site('Alder site');
    expect(requests.map(({ title }: { title: string }) => title)).toEqual([6, 5, 4, 3, 2].map((index) => `Question ${index}`));
    expect(openRequests).toBe(7);
  });

  test('has nothing of another client, nothing of the department, and is for clients only', async () => {
    await promise(other, '2026-12-01');
    await ask(other, 'Question of Birch');
    await water(other, dayPlus(TODAY, -2), 77);
    const text = JSON.stringify(await read());
    expect(text).not.toMatch(/Birch|Bring the spare seal/);
    expect((await read()).sites).toHaveLength(1);
    const ofOther = await signInAs(app, 'client', { clientId: other.clientId });
    const found = await read(ofOther);
    expect([found.clientName, found.sites[0].nextVisit.onDay, found.sites[0].openRequests, found.sites[0].skids[0].water.m3]).toEqual([
      'Birch',
      '2026-12-01',
      1,
      77,
    ]);
    await (await signInAs(app, 'manager')).get('/api/start').expect(403);
  });

  test('is read with the same number of statements, however many sites and skids there are', async () => {
    const count = () => countQueries(() => client.get('/api/start').expect(200));
    const before = await count();
    const clientId = skids[0]?.clientId as string;
    for (let index = 0; index < 5; index++) {
      const { id: siteId } = await prisma().site.create({ data: { clientId, name: `Site ${index}`, timeZone: 'Europe/Oslo' } });
      const skid = { clientId, siteId, flowScheme: 'dead-end', tmpFrom: 'pressures' };
      await prisma().skid.createMany({ data: Array.from({ length: 8 }, (_, at) => ({ ...skid, name: `Skid ${at}` })) });
    }
    expect(await count()).toBeLessThanOrEqual(before);
    expect((await read()).sites).toHaveLength(6);
    expect(before).toBeLessThanOrEqual(10);
  });
});
