import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let skid: SmallSkid;
let other: SmallSkid;
let manager: Api;
let technician: Api;
let client: Api;

const SETUP = { designFlowM3h: 36, airVolumeL: 250, highestTmpKpa: 100, airLiquidRatio: 40, creditLrv: 4, highestTestKpa: 200, fibresPerModule: 9_000 };
const TEST = { at: '2026-11-20T08:00:00Z', startKpa: 120, endKpa: 115, minutes: 10, settledMinutes: 5, temperatureC: 20 };

beforeAll(async () => {
  app = await startTestApp();
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  [other] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: skid.clientId });
});
afterAll(() => app?.close());

const path = (what: string, of = skid) => `/api/skids/${of.id}/${what}`;

describe('an integrity test', () => {
  test('without a setup is kept with its decay, and says what is missing', async () => {
    const { body } = await technician.post(path('integrity-tests'), { ...TEST, at: '2026-11-10T08:00:00Z' }).expect(201);
    expect(body).toMatchObject({ outcome: 'not counted', decayKpaMin: 0.5, lrv: null });
    expect(body.reasons[0]).toContain('enter the design flow');
  });

  test('is judged with the setup of the skid', async () => {
    const { body: setup } = await manager.call('put', path('integrity-setup')).send(SETUP).expect(200);
    expect(setup).toMatchObject({ ...SETUP, version: 1, netExpansion: 0.7 });
    const { body } = await technician.post(path('integrity-tests'), TEST).expect(201);
    expect(body).toMatchObject({ outcome: 'passed', reasons: [], nextSteps: [] });
    expect(body.lrv).toBeCloseTo(4.289, 3); // worked example computed from the equations of the rule
    expect(body.controlLimitKpaMin).toBeCloseTo(0.9727, 4);
  });

  test('that fails says what is usually done, and keeps the water from supply', async () => {
    const { body } = await technician.post(path('integrity-tests'), { ...TEST, at: '2026-11-21T08:00:00Z', startKpa: 130 }).expect(201);
    expect(body.outcome).toBe('failed');
    expect(body.nextSteps.join(' ')).toMatch(/kept from supply.*local regulator/);
  });

  test('is read by the client of the skid, and by nobody else’s', async () => {
    const { body } = await client.get(path('integrity-tests')).expect(200);
    expect(body.items.map(({ outcome }: { outcome: string }) => outcome)).toEqual(['failed', 'passed', 'not counted']);
    expect((await client.get(path('integrity')).expect(200)).body.lastCounted.outcome).toBe('failed');
    await client.get(path('integrity-tests', other)).expect(404);
    await client.get(path('integrity', other)).expect(404);
    await client.get(path('integrity-setup')).expect(403);
    await client.post(path('integrity-tests'), TEST).expect(403);
  });

  test('says which value cannot be', async () => {
    const refused = async (about: object) =>
      (await technician.post(path('integrity-tests'), { ...TEST, ...about }).expect(400)).body.errors.map(({ pointer }: { pointer: string }) => pointer);
    expect(await refused({ minutes: 0 })).toEqual(['#/minutes']);
    expect(await refused({ startKpa: -5 })).toContain('#/startKpa');
    expect(await refused({ temperatureC: 'cold' })).toContain('#/temperatureC');
    expect(await refused({ at: '2126-01-01T00:00:00Z' })).toEqual(['#/at']);
    await technician.post(`/api/skids/${randomUUID()}/integrity-tests`, TEST).expect(404);
  });
});

describe('the setup', () => {
  test('is edited with the version that was read', async () => {
    const put = () => manager.call('put', path('integrity-setup'));
    await put().send(SETUP).expect(428);
    const { body } = await put()
      .set('if-match', '"1"')
      .send({ ...SETUP, creditLrv: 3.5 })
      .expect(200);
    expect(body).toMatchObject({ creditLrv: 3.5, version: 2 });
    await put().set('if-match', '"1"').send(SETUP).expect(412);
    await technician.call('put', path('integrity-setup')).send(SETUP).expect(403);
  });
});

describe('closed fibres', () => {
  test('add up for each module, and take their share of the active area', async () => {
    const { prisma } = app.get(Database);
    const { clientId, id: skidId } = skid;
    const ids = await Promise.all(
      ['M-01', 'M-02'].map((name) => prisma.position.create({ data: { clientId, skidId, kind: 'module', name } }).then(({ id }) => id)),
    );
    const { body } = await technician.post(path('fibre-repairs'), { positionId: ids[0], at: '2026-11-21T10:00:00Z', fibres: 90 }).expect(201);
    expect(body.areaLostM2).toBeCloseTo((600 / 2) * 0.01, 9);
    const area = await prisma.skidArea.findFirst({ where: { skidId }, orderBy: { fromDay: 'desc' } });
    expect(area?.areaM2).toBeCloseTo(597, 9);
    const { body: record } = await client.get(path('integrity')).expect(200);
    expect(record.modules[0]).toMatchObject({ positionName: 'M-01', fibres: 90, share: 0.01, mark: 'replace the module' });
    expect(record.breaksPerMillionYear).toBeCloseTo((90 / 18_000) * 1e6, 6);
  });

  test('are of a module of the skid', async () => {
    const { body } = await technician.post(path('fibre-repairs'), { positionId: randomUUID(), fibres: 1 }).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/positionId', message: expect.stringContaining('no module of this skid') }]);
  });
});
