import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makePageFleet } from '../support/page-fleet.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  ({ skid } = await makePageFleet(app, NOW));
  manager = await signInAs(app, 'manager');
  await app.get(Database).pool.query('UPDATE cycle SET tmp_start_kpa = 0.97 * (feed_kpa - filtrate_kpa) WHERE skid_no = $1', [skid.no]);
  await app.get(Recompute).now(skid.id);
});

afterAll(() => app.close());

describe('what fouls the membranes', () => {
  test('is split by day, in parts that belong to the new membrane, to cleans and to nothing yet', async () => {
    const { body } = await manager.get(`/api/skids/${skid.id}/fouling`).expect(200);
    expect(body).toMatchObject({ newLmhBar: 200, newAssumed: false, exposure: { ppmH: 0, contacts: 0, unknown: 0 } });
    expect(body.days.length).toBeGreaterThan(100);
    expect(body.days.at(-1)).toMatchObject({ irreversible: null });
    expect(body.days.at(-1).ceb).toBeGreaterThan(body.days.at(0).ceb);
    expect(body.remarks).toContain('Without a recovery clean on record nothing is known to be irreversible.');
  });

  test('rises by some blocking law, each with the days that the membranes would last by it', async () => {
    const { blocking } = (await manager.get(`/api/skids/${skid.id}/fouling`).expect(200)).body;
    const days = blocking.laws.map(({ daysToLimit }: { daysToLimit: number }) => daysToLimit);
    expect(blocking.laws.map(({ law }: { law: string }) => law).toSorted()).toEqual(['cake', 'complete', 'intermediate', 'standard']);
    expect(blocking.inWords).toMatch(/^Over 1\d\d days since 2026-0\d-\d\d the pressure just after hydraulic cleans has changed by \d/);
    expect(Math.min(...days)).toBeGreaterThan(0);
  });

  test('is weighed against the water that other times of filtration would give, for staff', async () => {
    const path = `/api/skids/${skid.id}/filtration-time`;
    await app.get(Database).pool.query('UPDATE cycle SET tmp_end_kpa = 1.03 * (feed_kpa - filtrate_kpa) WHERE skid_no = $1', [skid.no]);
    const { body } = await manager.get(`${path}?cleanM3=1.5`).expect(200);
    expect(body).toMatchObject({ minutes: 30, wished: null, inWords: expect.stringMatching(/30 minutes a run .* 36\.0 m3\/h/) });
    const thirty = body.options.find(({ minutes }: { minutes: number }) => minutes === 30);
    expect(thirty.recovery).toBeCloseTo((18 - 1.5) / 18, 9);
    expect((await manager.get(`${path}?cleanM3=much`).expect(400)).body.errors[0].pointer).toBe('#/cleanM3');
    const client = await signInAs(app, 'client', { clientId: skid.clientId });
    await client.get(path).expect(403);
  });

  test('counts contact with chlorine, and says which contacts are not known', async () => {
    const { prisma } = app.get(Database);
    const { no: loadNo } = await prisma.load.findFirstOrThrow({ where: { skidId: skid.id } });
    const clean = { skidId: skid.id, clientId: skid.clientId, kind: 'CEB', loadNo };
    await prisma.clean.createMany({
      data: [
        { ...clean, at: new Date('2026-11-01T09:00:00Z'), chemical: 'sodium hypochlorite', strengthMgL: 200, contactMinutes: 15 },
        { ...clean, at: new Date('2026-11-02T09:00:00Z'), chemical: 'sodium hypochlorite' },
        { ...clean, at: new Date('2026-11-03T09:00:00Z'), chemical: 'citric acid', strengthMgL: 9000, contactMinutes: 60 },
      ],
    });
    const { body } = await manager.get(`/api/skids/${skid.id}/fouling`);
    expect(body.exposure).toEqual({ ppmH: 50, contacts: 2, unknown: 1 });
    expect(body.recoveries).toHaveLength(3);
  });

  test('comes with the instruments that do not fit, for staff and not for the client', async () => {
    const { pool } = app.get(Database);
    await pool.query('UPDATE cycle SET filtrate_m3 = flow_m3h * filtration_minutes / 60 / 1.5 WHERE skid_no = $1', [skid.no]);
    const { body } = await manager.get(`/api/skids/${skid.id}/fouling`);
    expect(body.doubts.map(({ about }: { about: string }) => about)).toContain('two measures differ');
    const client = await signInAs(app, 'client', { clientId: skid.clientId });
    expect((await client.get(`/api/skids/${skid.id}/fouling`).expect(200)).body.doubts).toEqual([]);
  });

  test('of a skid without readings says what is missing', async () => {
    const [bare] = (await makeSkids(app, 'Bare', 1)) as [SmallSkid];
    const { body } = await manager.get(`/api/skids/${bare.id}/fouling`).expect(200);
    expect(body).toMatchObject({
      newLmhBar: null,
      days: [],
      recoveries: [],
      inferred: [],
      doubts: [],
      index: { perM2L: null },
      blocking: { told: false, laws: [] },
    });
    expect(body.remarks[0]).toMatch(/Nothing is split/);
  });

  test('of another client is not found', async () => {
    const [other] = (await makeSkids(app, 'Rowan', 1)) as [SmallSkid];
    const stranger = await signInAs(app, 'client', { clientId: other.clientId });
    await stranger.get(`/api/skids/${skid.id}/fouling`).expect(404);
  });
});
