import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, newId, Recompute } from '../../src/app/index.js';
import { BackCast } from '../../src/outlook/record/back-cast.js';
import { Calibrations } from '../../src/outlook/record/calibrations.js';
import { dayPlus } from '../../src/shared/day.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { makePageFleet } from '../support/page-fleet.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;
let setPart: string;
let housing: string;

/** A fleet with 120 days of cycles, whose cartridge sets were changed 70 and 20 days ago at 50 days of life. */
beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  ({ skid } = await makePageFleet(app, NOW));
  manager = await signInAs(app, 'manager');
  await app.get(Recompute).now(skid.id);
  const { prisma } = app.get(Database);
  const fitting = await prisma.fitting.findFirstOrThrow({ where: { removedAt: { not: null } }, orderBy: { fittedAt: 'desc' } });
  [setPart, housing] = [fitting.partId, fitting.positionId];
});

afterAll(() => app.close());

/** Stores what a forecast said on a day about a set that was removed since: the last such, if none is named. */
async function said(
  originDay: string,
  [p10Days, p50Days, p90Days]: readonly [number | null, number | null, number | null],
  limitValue: number,
  partId = setPart,
): Promise<void> {
  await app.get(Database).prisma.outlook.create({
    data: {
      skidNo: skid.no,
      clientId: skid.clientId,
      subject: housing,
      partId,
      limitKind: 'cartridge dP',
      limitValue,
      clock: 'filtrate since the set was fitted',
      originAt: new Date(`${originDay}T08:00:00Z`),
      originDay: new Date(originDay),
      computedAt: new Date(`${originDay}T09:00:00Z`),
      model: 'test',
      modelVersion: '1',
      kind: 'outlook',
      metByDay: [],
      p10Days,
      p50Days,
      p90Days,
      path: [],
      reason: 'as it was',
      dataUsed: [],
    },
  });
}

async function lineOf(ahead: string, query = '') {
  const { body } = await manager.get(`/api/outlooks/record?limitKind=cartridge%20dP${query}`).expect(200);
  return (body.lines as { ahead: string }[]).find((line) => line.ahead === ahead);
}

describe('the record of outlooks', () => {
  test('holds what was said against what came, and counts early changes for neither', async () => {
    const { rows } = await app
      .get(Database)
      .pool.query<{ day: string; dp: number }>(
        `SELECT to_char(day, 'YYYY-MM-DD') AS day, cartridge_dp_kpa AS dp FROM daily_condition d JOIN skid s ON s.no = d.skid_no WHERE s.id = $1 ORDER BY day`,
        [skid.id],
      );
    const removed = await app.get(Database).prisma.fitting.findFirstOrThrow({ where: { partId: setPart } });
    const last = dayPlus(removed.removedAt?.toISOString().slice(0, 10) ?? '', -6);
    const metValue = rows.find(({ day }) => day === last)?.dp ?? Number.NaN;
    const origin = dayPlus(last, -12);
    await said(origin, [5, 14, 25], metValue);
    await said(dayPlus(origin, 2), [1, 3, 5], metValue);
    const earlier = await app.get(Database).prisma.fitting.findFirstOrThrow({ where: { positionId: housing, removedAt: { lte: removed.fittedAt } } });
    await app.get(Database).prisma.fitting.update({ where: { id: earlier.id }, data: { removalReason: 'by the calendar' } });
    await said(dayPlus(earlier.removedAt?.toISOString().slice(0, 10) ?? '', -8), [4, 20, 40], metValue * 3, earlier.partId);
    await app.get(Recompute).now(skid.id);
    expect(await lineOf('all')).toMatchObject({ scored: 2, lives: 1, earlyChanges: 1, inside: 1, saidTooEarly: 0 });
    expect(await lineOf('up to 2 weeks')).toMatchObject({ scored: 2 });
    expect(await lineOf('2 to 4 weeks')).toMatchObject({ scored: 0, earlyChanges: 1, inWords: 'Each life ended before its limit: nothing can be said yet' });
  });

  test('says it part by part, where the fewest held first, with what chance would make of so few lives', async () => {
    const { body } = await manager.get('/api/outlooks/record').expect(200);
    const parts = body.parts as { subject: string; scored: number; inside: number; lives: number; insideRange: number[] }[];
    for (const { scored, inside, lives, insideRange } of parts) {
      expect(scored).toBeGreaterThanOrEqual(5);
      expect(lives).toBeLessThanOrEqual(scored);
      expect((insideRange[0] ?? 1) <= inside / scored && inside / scored <= (insideRange[1] ?? 0)).toBe(true);
    }
    const shares = parts.map(({ inside, scored }) => inside / scored);
    expect(shares).toEqual([...shares].sort((one, two) => one - two));
  });

  test('never changes what was said, however often it is looked at again', async () => {
    const stored = () => app.get(Database).prisma.outlook.findMany({ where: { model: 'test' }, orderBy: { id: 'asc' } });
    const before = await stored();
    await app.get(Recompute).now(skid.id);
    expect(await stored()).toEqual(before);
  });

  test('is about the skid or the client that was asked for', async () => {
    const [other] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
    expect((await manager.get(`/api/outlooks/record?skidId=${other.id}`)).body.lines).toEqual([]);
    expect(await lineOf('all', `&clientId=${skid.clientId}`)).toMatchObject({ scored: 2 });
  });

  test('shows a client their own, and no other', async () => {
    const [other] = (await makeSkids(app, 'Rowan', 1)) as [SmallSkid];
    const stranger = await signInAs(app, 'client', { clientId: other.clientId });
    expect((await stranger.get('/api/outlooks/record')).body.lines).toEqual([]);
    expect((await stranger.get('/api/outlooks')).body).toMatchObject({ items: [], total: 0 });
  });

  test('says what a word it does not know may be', async () => {
    const answer = await manager.get('/api/outlooks/record?limitKind=flow');
    expect(answer.status).toBe(400);
    expect(JSON.stringify(answer.body)).toContain('permeability');
  });
});

describe('the weeks before the service was there', () => {
  test('are forecast from what had been measured until then, marked as made afterwards, and scored', async () => {
    await app.get(BackCast).now({ id: skid.id, no: skid.no, clientId: skid.clientId });
    const made = await app.get(Database).prisma.outlook.findMany({ where: { skidNo: skid.no, afterwards: true }, orderBy: { originDay: 'asc' } });
    expect(new Set(made.map(({ originDay }) => originDay.toISOString())).size).toBeGreaterThanOrEqual(5);
    // The housing's middle set was fitted 70 days ago: before that, nothing is said of it.
    for (const { partId, originDay } of made.filter((one) => one.partId === setPart)) {
      const fitted = await app.get(Database).prisma.fitting.findFirstOrThrow({ where: { partId: partId ?? '' } });
      expect(originDay.getTime()).toBeGreaterThanOrEqual(fitted.fittedAt.getTime() - 86_400_000);
    }
    const scored = await app.get(Database).prisma.outlookScore.count({ where: { outlookId: { in: made.map(({ id }) => id) } } });
    expect(scored).toBe(made.filter(({ kind }) => kind === 'outlook').length);
  });

  test('stand beside what came, week by week, for whoever may see the skid', async () => {
    const { body } = await manager.get(`/api/skids/${skid.id}/outlooks?limitKind=permeability`).expect(200);
    expect(body.length).toBeGreaterThan(0);
    expect(body[0]).toMatchObject({ subject: 'Membranes', came: expect.stringMatching(/scored|early change|open/), afterwards: expect.any(Boolean) });
    expect(body.map(({ originOn }: { originOn: string }) => originOn)).toEqual(body.map(({ originOn }: { originOn: string }) => originOn).sort());
    await manager.get(`/api/skids/${skid.id}/outlooks`).expect(400);
    const [other] = (await makeSkids(app, 'Yew', 1)) as [SmallSkid];
    const stranger = await signInAs(app, 'client', { clientId: other.clientId });
    await stranger.get(`/api/skids/${skid.id}/outlooks?limitKind=permeability`).expect(404);
  });

  test('are forecast once', async () => {
    const count = () => app.get(Database).prisma.outlook.count();
    const before = await count();
    await app.get(BackCast).now({ id: skid.id, no: skid.no, clientId: skid.clientId });
    expect(await count()).toBe(before);
  });
});

describe('what comes first', () => {
  test('lists the present forecast of each limit with its range and how sure it is', async () => {
    const { items, total } = (await manager.get('/api/outlooks').expect(200)).body;
    expect(total).toBe(items.length);
    expect(items.map(({ limitKind }: { limitKind: string }) => limitKind).sort()).toEqual(['cartridge dP', 'permeability']);
    for (const item of items) expect(item).toMatchObject({ skidId: skid.id, howSure: expect.stringMatching(/./), reason: expect.stringMatching(/./) });
  });

  test('takes the same number of queries for one skid and for many', async () => {
    const one = await countQueries(() => manager.get('/api/outlooks').expect(200));
    await makeSkids(app, 'Alder', 30);
    expect(await countQueries(() => manager.get('/api/outlooks').expect(200))).toBe(one);
  });

  test('finds words, and pages on', async () => {
    expect((await manager.get('/api/outlooks?find=nothing%20like%20it')).body.items).toEqual([]);
    const { body: first } = await manager.get('/api/outlooks?limit=1');
    const { body: second } = await manager.get(`/api/outlooks?limit=1&cursor=${first.next}`);
    expect(new Set([...first.items, ...second.items].map(({ limitKind }: { limitKind: string }) => limitKind)).size).toBe(2);
    expect(second.next).toBeNull();
  });
});

describe('ranges of coming forecasts', () => {
  test('are widened by what came of earlier ones of their model, and say by how much', async () => {
    const { prisma, pool } = app.get(Database);
    await app.get(Recompute).now(skid.id);
    const latest = await prisma.outlook.findFirstOrThrow({
      where: { skidNo: skid.no, limitKind: 'cartridge dP', kind: 'outlook' },
      orderBy: { originDay: 'desc' },
    });
    // Forecasts of eight lives whose truths lay three times as far from the middle as the range said.
    for (let life = 0; life < 8; life++) {
      const { skidNo, clientId, limitValue, clock, originAt, model, modelVersion, p50Days } = latest;
      const middle = p50Days ?? Number.NaN;
      const made = await prisma.outlook.create({
        data: {
          skidNo,
          clientId,
          subject: housing,
          partId: newId(),
          limitKind: 'cartridge dP',
          limitValue,
          clock,
          originAt,
          originDay: new Date(`2025-01-0${life + 1}`),
          computedAt: originAt,
          model,
          modelVersion,
          kind: 'outlook',
          metByDay: [],
          p10Days: middle / 1.2,
          p50Days: middle,
          p90Days: middle * 1.2,
          path: [],
          reason: '',
          dataUsed: [],
        },
      });
      await pool.query(
        `INSERT INTO outlook_score (outlook_id, skid_no, client_id, life, kind, ended_on, truth_days, error_days, inside) VALUES ($1, $2, $3, $4, 'scored', '2026-06-01', $5, 0, false)`,
        [made.id, skidNo, clientId, `place ${life}`, Math.round(middle * (life % 2 === 0 ? 1.2 ** 3 : 1.2 ** -3))],
      );
    }
    app.get(Clock).now = () => new Date(NOW.getTime() + 7 * 3_600_000);
    const stretchFor = await app.get(Calibrations).now();
    expect(stretchFor(`${latest.model} ${latest.modelVersion}`, latest.p50Days ?? Number.NaN)).toBeGreaterThan(1.3);
    await app.get(Recompute).now(skid.id);
    const after = await prisma.outlook.findFirstOrThrow({
      where: { skidNo: skid.no, limitKind: 'cartridge dP', subject: latest.subject },
      orderBy: { originDay: 'desc' },
    });
    expect(after.stretch).toBeGreaterThan(1.3);
    expect((after.p90Days ?? Infinity) / (after.p10Days ?? 1)).toBeGreaterThan((latest.p90Days ?? 0) / (latest.p10Days ?? 1));
    expect(after.p50Days).toBeCloseTo(latest.p50Days ?? Number.NaN, 1);
  });
});
