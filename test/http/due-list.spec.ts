import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import { dayPlus } from '../../src/shared/day.js';
import { standingRank } from '../../src/shared/standing.js';
import { standingOf } from '../../src/upkeep/core/standing.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

/** At this moment it is the 25th in Madrid, the 26th in Auckland and the 24th in Honolulu. */
const NOW = new Date('2026-11-25T09:30:00Z');
const ZONES = [
  ['Pacific/Auckland', '2026-11-25'],
  ['Europe/Madrid', '2026-11-25'],
  ['Pacific/Honolulu', '2026-11-24'],
  ['Pacific/Kiritimati', '2026-11-25'],
] as const;
let app: NestFastifyApplication;
let manager: Api;
const skids: SmallSkid[] = [];

interface Due {
  id: string;
  task: string;
  standing: string;
  bestOn: string | null;
  latestOn: string | null;
  siteName: string;
  skidName: string;
}

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  const { prisma } = app.get(Database);
  for (const [zone] of ZONES) {
    const [skid] = (await makeSkids(app, zone, 1, zone)) as [SmallSkid];
    skids.push(skid);
    // every edge of every range, with and without grace
    const days = [-30, -3, -2, -1, 0, 1, 2, 12, 13, 14, 15, 16, 17, 58, 59, 60, 61, 62, 63, 400].flatMap((at) => [
      [at, null],
      [at, 1],
      [at, 20],
    ]);
    await prisma.due.createMany({
      data: [...days, [null, null]].map(([at, grace]) => ({
        clientId: skid.clientId,
        skidNo: skid.no,
        task: `Task ${at} ${grace}`,
        limit: 'calendar',
        bestOn: at == null ? null : new Date(dayPlus('2026-11-25', at)),
        latestOn: at == null || grace == null ? null : new Date(dayPlus('2026-11-25', at + grace)),
        reason: '',
        computedFrom: [],
        computedAt: NOW,
      })),
    });
  }
});
afterAll(() => app?.close());

async function all(query = ''): Promise<{ items: Due[]; totals: number[] }> {
  const items: Due[] = [];
  const totals: number[] = [];
  for (let cursor = ''; ; ) {
    const { body } = await manager.get(`/api/dues?limit=40${query}${cursor}`).expect(200);
    items.push(...body.items);
    totals.push(body.total);
    if (body.next === null) return { items, totals };
    cursor = `&cursor=${body.next}`;
  }
}

const todayAt = (zone: string) => new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format(NOW);

describe('the due list', () => {
  test('gives each due once, judged by the day at its site as everywhere else', async () => {
    const { items, totals } = await all();
    expect(items).toHaveLength(61 * ZONES.length);
    expect(new Set(items.map(({ id }) => id)).size).toBe(items.length);
    expect(new Set(totals)).toEqual(new Set([items.length]));
    for (const { standing, bestOn, latestOn, siteName } of items)
      expect([siteName, bestOn, latestOn, standing]).toEqual([
        siteName,
        bestOn,
        latestOn,
        standingOf({ dueOn: bestOn, latestOn, today: todayAt(siteName.replace(' site', '')) }),
      ]);
  });

  test('has the most urgent first, and within a standing the earliest', async () => {
    const { items } = await all();
    const keys = items.map(({ standing, bestOn, siteName, skidName }) => [standingRank(standing as 'due'), bestOn ?? '9999', siteName, skidName].join('|'));
    expect(keys).toEqual([...keys].sort((a, b) => (a < b ? -1 : a > b ? 1 : 0)));
  });

  test('can be narrowed by standing, skid, client and words, with the number that is left', async () => {
    const { items } = await all();
    for (const standing of ['overdue', 'due', 'no-data', 'watch', 'steady']) {
      const some = await all(`&standing=${standing}`);
      expect(some.items).toEqual(items.filter((due) => due.standing === standing));
      expect(some.totals[0]).toBe(some.items.length);
    }
    const [skid] = skids as [SmallSkid];
    for (const query of [`&skidId=${skid.id}`, `&clientId=${skid.clientId}`, '&find=auckland']) {
      const some = await all(query);
      expect([query, some.totals[0], some.items.length]).toEqual([query, 61, 61]);
    }
    expect((await all('&find=%25')).items).toEqual([]);
  });

  test('shows a client their own alone', async () => {
    const client = await signInAs(app, 'client', { clientId: skids[0]?.clientId ?? '' });
    const { body } = await client.get('/api/dues?limit=200').expect(200);
    expect([body.items.length, body.total]).toEqual([61, 61]);
  });

  test('refuses a cursor that it did not give', async () => {
    for (const key of [[-5], [1.5], [1e12], ['a']]) {
      await manager.get(`/api/dues?cursor=${Buffer.from(JSON.stringify(key)).toString('base64url')}`).expect(400);
    }
  });
});
