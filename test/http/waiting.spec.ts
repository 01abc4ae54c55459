import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, newId, Recompute } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { makePageFleet } from '../support/page-fleet.js';
import { type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;

interface WaitingRow {
  readonly subject: string;
  readonly limitKind: string;
  readonly kind: string;
  readonly currency: string;
  readonly cheapestOn: string | null;
  readonly inWords: string;
  readonly missing: string[];
  readonly notCounted: string[];
  readonly points: { on: string; risk: number; lifeThrownAway: number; energy: number; production: number; extra: number }[];
}

const waitingOf = async (limitKind: string): Promise<WaitingRow | undefined> => {
  const { body } = await manager.get(`/api/skids/${skid.id}/outlooks/waiting`).expect(200);
  return (body as WaitingRow[]).find((row) => row.limitKind === limitKind);
};

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  ({ skid } = await makePageFleet(app, NOW));
  manager = await signInAs(app, 'manager');
  await app.get(Recompute).now(skid.id);
});

afterAll(() => app.close());

describe('prices of a site', () => {
  test('are unset until somebody enters them, and are edited by version', async () => {
    const { siteId } = await app.get(Database).prisma.skid.findUniqueOrThrow({ where: { id: skid.id } });
    const path = `/api/sites/${siteId}/prices`;
    const { body, headers } = await manager.get(path).expect(200);
    expect(body).toEqual({ currency: 'EUR', unplanned: null, recoveryClean: null, energyKwh: null, waterM3: null, lostShare: null, version: 0 });
    expect(headers.etag).toBe('"0"');
    await manager.put(path).send({ unplanned: '900' }).expect(428);
    const entered = await manager.put(path).set('if-match', '"0"').send({ unplanned: '900.5', recoveryClean: '450' }).expect(200);
    expect(entered.body).toMatchObject({ unplanned: '900.5', recoveryClean: '450', energyKwh: null, version: 1 });
    await manager.put(path).set('if-match', '"0"').send({ unplanned: '1' }).expect(412);
    const wrong = await manager.put(path).set('if-match', '"1"').send({ unplanned: '-3', lostShare: 2 }).expect(400);
    expect((wrong.body.errors as { pointer: string }[]).map(({ pointer }) => pointer).sort()).toEqual(['#/lostShare', '#/unplanned']);
    await manager.put(`/api/sites/${newId()}/prices`).set('if-match', '"0"').send({}).expect(404);
  });
});

describe('what waiting costs', () => {
  test('says which price is missing, and with all of them weighs early against late by day and term', async () => {
    const { prisma } = app.get(Database);
    const cartridge = await waitingOf('cartridge dP');
    expect(cartridge?.kind).toBe('prices-missing');
    expect(cartridge?.missing).toEqual(['what the renewal costs']);
    expect(cartridge?.inWords).toBe('What waiting costs cannot be told without what the renewal costs.');

    const fitting = await prisma.fitting.findFirstOrThrow({
      where: { removedAt: null, position: { kind: 'pre-filter', skidId: skid.id } },
      include: { part: true },
    });
    await prisma.itemCost.create({ data: { itemId: fitting.part.itemId, average: '40' } });
    const { siteId } = await prisma.skid.findUniqueOrThrow({ where: { id: skid.id } });
    await manager
      .put(`/api/sites/${siteId}/prices`)
      .set('if-match', '"1"')
      .send({ unplanned: '900', recoveryClean: '450', energyKwh: '0.22', waterM3: '1.4', lostShare: 0.3 })
      .expect(200);

    const priced = await waitingOf('cartridge dP');
    expect(priced).toMatchObject({ kind: 'waiting', currency: 'EUR', missing: [], notCounted: [] });
    const points = priced?.points ?? [];
    expect(points.find(({ on }) => on === priced?.cheapestOn)?.extra).toBe(0);
    const [first, last] = [points[0], points.at(-1)];
    expect(last?.risk).toBeGreaterThan(first?.risk ?? Number.NaN);
    expect(last?.risk).toBeLessThanOrEqual(900);
    expect(last?.energy).toBeGreaterThan(0);
    expect(last?.production).toBeGreaterThan(0);
    expect(points.every((point) => Object.values(point).every((value) => typeof value === 'string' || Number.isFinite(value)))).toBe(true);
    expect(priced?.inWords).toMatch(/costs .* EUR more/);
  });

  test('is on the list of what comes first for our people and not for clients, in one query more', async () => {
    const client = await signInAs(app, 'client', { clientId: skid.clientId });
    const { body: ours } = await manager.get('/api/outlooks').expect(200);
    expect((ours.items as { waiting: string | null }[]).every(({ waiting }) => waiting !== null)).toBe(true);
    const { body: theirs } = await client.get('/api/outlooks').expect(200);
    expect((theirs.items as { waiting: string | null }[]).every(({ waiting }) => waiting === null)).toBe(true);
    await client.get(`/api/skids/${skid.id}/outlooks/waiting`).expect(403);
    await manager.get(`/api/skids/${newId()}/outlooks/waiting`).expect(404);
    expect(await countQueries(() => manager.get('/api/outlooks').expect(200))).toBeLessThanOrEqual(4);
  });
});
