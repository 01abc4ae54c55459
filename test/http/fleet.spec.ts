import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import pg from 'pg';
import { Clock, Database } from '../../src/app/index.js';
import { dayPlus } from '../../src/shared/day.js';
import { standingOf } from '../../src/upkeep/index.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const TODAY = '2026-11-25';
let app: NestFastifyApplication;
let manager: Api;
let alder: SmallSkid[];
let birch: SmallSkid[];

const need = ({ no, clientId }: SmallSkid, task: string, bestOn: string | null, latestOn: string | null = bestOn) =>
  app.get(Database).prisma.due.create({
    data: {
      clientId,
      skidNo: no,
      task,
      limit: 'calendar',
      bestOn: bestOn === null ? null : new Date(bestOn),
      latestOn: latestOn === null ? null : new Date(latestOn),
      reason: `${task}: by the calendar.`,
      computedFrom: [{ name: 'Last done', value: '2026-01-01' }],
      computedAt: NOW,
    },
  });
const heardFrom = ({ no, clientId }: SmallSkid, lastReadingAt: string, byHand = false) =>
  app
    .get(Database)
    .prisma.skidCondition.create({ data: { skidNo: no, clientId, computedAt: NOW, lastReadingAt: new Date(lastReadingAt), byHand, baselines: {} } });

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  alder = await makeSkids(app, 'Alder', 5);
  birch = await makeSkids(app, 'Birch', 1);
  const [overdue, due, watched, steady, silent] = alder as [SmallSkid, SmallSkid, SmallSkid, SmallSkid, SmallSkid];
  await Promise.all([overdue, due, watched, steady].map((skid) => heardFrom(skid, '2026-11-25T06:00:00Z')));
  await heardFrom(silent, '2026-11-10T06:00:00Z');
  await heardFrom(birch[0] as SmallSkid, '2026-11-10T06:00:00Z', true);
  await need(overdue, 'Change the oil', '2026-11-20');
  await need(overdue, 'Check the seal', '2027-05-01');
  await need(due, 'Change the cartridges', '2026-12-05');
  await need(watched, 'Recovery clean', '2027-01-10');
  await need(steady, 'Calibrate the transmitters', '2027-06-01');
});
afterAll(() => app?.close());

const standings = (page: { items: { name: string; standing: string }[] }) => page.items.map(({ name, standing }) => `${name} ${standing}`);

describe('the fleet', () => {
  test('shows every skid by its most urgent need, the most urgent first', async () => {
    const { body } = await manager.get('/api/fleet').expect(200);
    expect(standings(body)).toEqual(['Alder 1 overdue', 'Alder 2 due', 'Alder 5 no-data', 'Alder 3 watch', 'Alder 4 steady', 'Birch 1 steady']);
    expect(body.items[0]).toMatchObject({ nextTask: 'Change the oil', nextOn: '2026-11-20', reason: 'Change the oil: by the calendar.' });
    expect(body.items[2].reason).toContain('No reading for too long');
  });

  test('takes a plant that is read by hand for silent only after three weeks', async () => {
    const { body } = await manager.get('/api/fleet?find=birch').expect(200);
    expect(standings(body)).toEqual(['Birch 1 steady']);
  });

  test('is found by words, standing and client, and counted whole', async () => {
    const { body } = await manager.get(`/api/fleet?standing=due&clientId=${alder[0]?.clientId}&find=aLDER`).expect(200);
    expect(standings(body)).toEqual(['Alder 2 due']);
    expect(body.total).toBe(1);
    const counts = Object.fromEntries(body.counts.map(({ standing, skids }: { standing: string; skids: number }) => [standing, skids]));
    expect(counts).toEqual({ overdue: 1, due: 1, 'no-data': 1, watch: 1, steady: 2 });
  });

  test('comes in pages that neither repeat nor leave out a skid', async () => {
    const names: string[] = [];
    for (let cursor = ''; ; ) {
      const { body } = await manager.get(`/api/fleet?limit=2${cursor}`).expect(200);
      names.push(...body.items.map(({ name }: { name: string }) => name));
      if (body.next === null) break;
      cursor = `&cursor=${body.next}`;
    }
    expect(names).toHaveLength(6);
    expect(new Set(names).size).toBe(6);
  });

  test('is, for a client, their own skids and nothing else', async () => {
    const client = await signInAs(app, 'client', { clientId: birch[0]?.clientId as string });
    const { body } = await client.get('/api/fleet').expect(200);
    expect(standings(body)).toEqual(['Birch 1 steady']);
    expect(body.counts).toEqual([{ standing: 'steady', skids: 1 }]);
    await client.get(`/api/skids/${alder[0]?.id}/overview`).expect(404);
    await client.get(`/api/skids/${alder[0]?.id}/trends/permeability`).expect(404);
    expect((await client.get('/api/dues').expect(200)).body.items).toEqual([]);
  });

  test('answers bad questions with what is wrong in them', async () => {
    for (const query of ['standing=red', 'limit=0', 'limit=1000', 'limit=x', 'cursor=%00', 'cursor=e30', 'clientId=1', 'colour=red']) {
      const { body } = await manager
        .get(`/api/fleet?${query}`)
        .expect(400)
        .expect('content-type', /problem\+json/);
      expect(body.errors).not.toEqual([]);
    }
    await manager.get('/api/fleet?find=%25%27%3B--%F0%9F%92%A7').expect(200);
    await manager.get('/api/skids/1/overview').expect(400);
    await manager.get('/api/skids/019ab000-0000-7000-8000-000000000000/overview').expect(404);
    await manager.get(`/api/skids/${alder[0]?.id}/trends/colour`).expect(400);
  });
});

describe('the due list', () => {
  test('explains each line', async () => {
    const { body } = await manager.get('/api/dues').expect(200);
    expect(body.total).toBe(5);
    expect(body.items[0]).toMatchObject({
      task: 'Change the oil',
      skidName: 'Alder 1',
      standing: 'overdue',
      latestOn: '2026-11-20',
      computedFrom: [{ name: 'Last done', value: '2026-01-01' }],
    });
  });

  test('is narrowed to a site, which each line names', async () => {
    const [{ siteId }] = alder as [SmallSkid];
    const { body } = await manager.get(`/api/dues?siteId=${siteId}`).expect(200);
    expect([body.total, new Set(body.items.map((due: { siteId: string }) => due.siteId))]).toEqual([5, new Set([siteId])]);
    expect((await manager.get(`/api/dues?siteId=${birch[0]?.siteId}`).expect(200)).body).toMatchObject({ items: [], total: 0 });
    expect((await manager.get(`/api/dues?siteId=${siteId}&standing=overdue&find=oil`).expect(200)).body.items).toHaveLength(1);
  });

  test('judges standing in the database as standingOf does', async () => {
    const skid = (await makeSkids(app, 'Cedar', 1))[0] as SmallSkid;
    const cases = [-30, -1, 0, 1, 13, 14, 15, 59, 60, 61, 400].flatMap((ahead) =>
      [0, 5].map((grace) => [dayPlus(TODAY, ahead), dayPlus(TODAY, ahead + grace)] as const),
    );
    for (const [bestOn, latestOn] of cases) await need(skid, `${bestOn} to ${latestOn}`, bestOn, latestOn);
    const { body } = await manager.get(`/api/dues?skidId=${skid.id}&limit=200`).expect(200);
    expect(body.items).toHaveLength(cases.length);
    for (const { bestOn, latestOn, standing } of body.items)
      expect(`${bestOn} ${standing}`).toBe(`${bestOn} ${standingOf({ dueOn: bestOn, latestOn, today: TODAY })}`);
  });

  test('and the fleet are read with the same number of queries, however large the fleet', async () => {
    const count = async (path: string) => {
      const original = pg.Client.prototype.query;
      let queries = 0;
      pg.Client.prototype.query = function (this: pg.Client, ...args: unknown[]) {
        queries += 1;
        return Reflect.apply(original, this, args);
      } as typeof original;
      try {
        await manager.get(path).expect(200);
      } finally {
        pg.Client.prototype.query = original;
      }
      return queries;
    };
    const before = [await count('/api/fleet?limit=200'), await count('/api/dues?limit=200')];
    for (const skid of await makeSkids(app, 'Dogwood', 60)) await need(skid, 'Check the valves', '2026-12-01');
    expect([await count('/api/fleet?limit=200'), await count('/api/dues?limit=200')]).toEqual(before);
    expect(Math.max(...before)).toBeLessThanOrEqual(4);
  });
});
