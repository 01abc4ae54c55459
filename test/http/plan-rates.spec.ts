import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

interface Cost {
  readonly kind: string;
  readonly minutes: number;
  readonly money: number | null;
  readonly count: number;
}

const RATES = { currency: 'EUR', workHour: '60', travelHour: '45', overtimeHour: '20', kilometre: '0.5', nightAway: '120' };
let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; plans begin on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  const { id } = await signInByName(app, 'Ada');
  [skid] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: skid.siteId }, data: { latitude: 50.2, longitude: 8 } });
  await knowPerson(manager, id, {});
});
afterAll(() => app?.close());

const plan = async () => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201)).body;
const put = (version: number, body: object) => manager.put('/api/planning/rates', body).set('if-match', `"${version}"`);
const costOf = ({ costs }: { costs: Cost[] }, kind: string) => costs.find((cost) => cost.kind === kind);

describe('rates', () => {
  test('are none until somebody enters them: costs count in hours, and the plan says no currency', async () => {
    expect((await manager.get('/api/planning/rates').expect(200)).body).toMatchObject({ currency: 'EUR', workHour: null, version: 0 });
    await makeDue(app, skid, 'Change the oil', { minutes: 60, bestOn: '2026-11-30', latestOn: '2026-11-30' });
    const found = await plan();
    expect(found.currency).toBeNull();
    expect(costOf(found, 'work')).toEqual({ kind: 'work', minutes: 60, money: null, count: 1 });
  });

  test.each([
    ['some of them', { currency: 'EUR', workHour: '60', kilometre: '0.5' }, ['#/travelHour', '#/overtimeHour', '#/nightAway']],
    ['an hour of work that costs nothing', { ...RATES, workHour: '0' }, ['#/workHour']],
    ['an amount below zero', { ...RATES, kilometre: '-1' }, ['#/kilometre']],
    ['a currency that there is not', { ...RATES, currency: 'EURO' }, ['#/currency']],
  ])('are refused with %s', async (_, body, pointers) => {
    expect(pointersOf((await put(0, body).expect(400)).body)).toEqual(pointers);
  });

  test('let a plan say what it costs by kind in money, the same for the same seed', async () => {
    expect((await put(0, RATES).expect(200)).body).toMatchObject({ ...RATES, version: 1, waiting: expect.stringMatching(/^Work that a forecast/) });
    await put(0, RATES).expect(412);
    const [found, again] = [await plan(), await plan()];
    expect(found.currency).toBe('EUR');
    expect(costOf(found, 'work')).toMatchObject({ minutes: 60, money: 60 });
    const [ways, km] = [costOf(found, 'travel'), costOf(found, 'kilometres')];
    expect(Math.abs((ways?.money ?? 0) - (ways?.minutes ?? 0))).toBeLessThanOrEqual(0.5);
    expect(km?.money).toBeGreaterThan(10);
    expect(Math.abs((km?.money ?? 0) - 0.5 * (km?.count ?? 0))).toBeLessThan(0.5);
    expect(found.lines[0].reason).toContain('A day later counts as EUR 90.');
    expect(again.costs).toEqual(found.costs);
    expect(again.tours).toEqual(found.tours);
  });

  test('in another currency than prices leave out what waiting costs, and say so', async () => {
    const { body } = await put(1, { ...RATES, currency: 'CHF' }).expect(200);
    expect(body.waiting).toContain('reckoned in EUR and the rates are in CHF');
    expect((await plan()).currency).toBe('CHF');
    expect((await put(2, { currency: 'EUR' }).expect(200)).body).toMatchObject({ workHour: null });
    expect((await plan()).currency).toBeNull();
  });

  test('are a matter of managers', async () => {
    await (await signInAs(app, 'technician')).get('/api/planning/rates').expect(403);
  });
});
