import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { runFor } from '../support/cycle-days.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let manager: Api;
let skid: SmallSkid;
let now = new Date('2026-10-15T09:00:00Z');

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => now;
  manager = await signInAs(app, 'manager');
  [skid] = (await makeSkids(app, 'Elm', 1)) as [SmallSkid];
  // So slowly that no clean falls due meanwhile.
  await runFor(app, skid, '2026-09-05', 40, 0.001);
  await app.get(Recompute).now(skid.id);
});
afterAll(() => app?.close());

const onDay = (day: string) => {
  now = new Date(`${day}T09:00:00Z`);
  return app.get(Recompute).now(skid.id);
};
const change = (state: string) => manager.post(`/api/skids/${skid.id}/service-state`, { state, note: 'winter' });
const trend = async () => (await manager.get(`/api/skids/${skid.id}/trends/permeability`).expect(200)).body;
const overview = async () => (await manager.get(`/api/skids/${skid.id}/overview`).expect(200)).body;
const outlooks = () => app.get(Database).prisma.outlook.count({ where: { skidNo: skid.no } });

// One course of events: each test begins where the one before ended.
describe('a skid that is laid up', () => {
  test('has an outlook while it is in service, and is silent when nothing comes in', async () => {
    expect((await trend()).outlook).toMatchObject({ kind: 'outlook' });
    await onDay('2026-10-30');
    expect(await overview()).toMatchObject({ standing: 'no-data' });
  });

  test('makes no outlook, shows none, and says why', async () => {
    await change('laid up').expect(201);
    const before = await outlooks();
    await onDay('2026-11-20');
    expect(await outlooks()).toBe(before);
    const { outlook, remarks, values } = await trend();
    expect(outlook).toBeNull();
    expect(remarks).toContain('The skid is laid up since 30 Oct 2026: forecasts pause until it is in service again.');
    expect(values.length).toBe(40);
  });

  test('has nothing due of its outlook, and its silence is no fault', async () => {
    expect(await overview()).toMatchObject({
      standing: 'steady',
      serviceState: 'laid up',
      nextTask: null,
      reason: 'The skid is laid up: no readings are expected, and forecasts pause.',
    });
    const { body } = await manager.get('/api/fleet').expect(200);
    expect(body.counts).toEqual([{ standing: 'steady', skids: 1 }]);
  });

  test('is given a week to send readings once it runs again, and is silent only after that', async () => {
    await change('in service').expect(201);
    await onDay('2026-11-25');
    expect((await overview()).reason).not.toContain('No reading for too long');
    expect((await trend()).remarks.join(' ')).not.toContain('pause');
    await onDay('2026-12-02');
    expect((await overview()).reason).toContain('No reading for too long');
  });
});
