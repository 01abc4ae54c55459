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
    expect(body.judgedWith).toMatchObject({ designFlowM3h: 36, airLiquidRatio: 40, creditLrv: 4, gaugeStepKpa: 0.1 });
    expect(body.sensitivityLrv).toBeGreaterThan(body.lrv);
  });

  test('keeps what it was judged with, whatever the setup says later', async () => {
    const before = (await client.get(path('integrity-tests')).expect(200)).body.items[0];
    const { version } = (await manager.get(path('integrity-setup')).expect(200)).body;
    const put = (about: object, seen: number) =>
      manager
        .call('put', path('integrity-setup'))
        .set('if-match', `"${seen}"`)
        .send({ ...SETUP, ...about })
        .expect(200);
    await put({ creditLrv: 2, airLiquidRatio: null }, version);
    expect((await client.get(path('integrity-tests')).expect(200)).body.items[0]).toEqual(before);
    await put({}, version + 1);
  });

  test('that fails says what is usually done, and keeps the water from supply', async () => {
    const { body } = await technician.post(path('integrity-tests'), { ...TEST, at: '2026-11-21T08:00:00Z', startKpa: 130 }).expect(201);
    expect(body.outcome).toBe('failed');
    expect(body.nextSteps.join(' ')).toMatch(/kept from supply.*local regulator/);
  });

  test('that loses its pressure fails, though it ends too low to count', async () => {
    const { body } = await technician.post(path('integrity-tests'), { ...TEST, at: '2026-11-21T07:00:00Z', endKpa: 3 }).expect(201);
    expect(body).toMatchObject({ outcome: 'failed', reasons: [expect.stringContaining('11.70 kPa/min'), expect.stringContaining('ended at 3 kPa')] });
  });

  test('asks for what rests on it to be judged again', async () => {
    const { rows } = await app.get(Database).pool.query("SELECT 1 FROM pgboss.job WHERE data->>'skidId' = $1", [skid.id]);
    expect(rows).not.toEqual([]);
  });

  test('is stored once for each key, and each moment has one', async () => {
    const key = randomUUID();
    const test = { ...TEST, at: '2026-11-19T08:00:00Z' };
    const send = () => technician.call('post', path('integrity-tests')).set('idempotency-key', key).send(test).expect(201);
    expect((await send()).body.id).toBe((await send()).body.id);
    const { body } = await technician.post(path('integrity-tests'), test).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/at', message: expect.stringContaining('a test of this moment already') }]);
  });

  test('is read by the client of the skid, and by nobody else’s', async () => {
    const { body } = await client.get(path('integrity-tests')).expect(200);
    expect(body.items.map(({ outcome }: { outcome: string }) => outcome)).toEqual(['failed', 'failed', 'passed', 'passed', 'not counted']);
    const { body: record } = await client.get(path('integrity')).expect(200);
    expect(record.lastCounted.outcome).toBe('failed');
    expect(record.trend.map(({ outcome }: { outcome: string }) => outcome)).toEqual(['not counted', 'passed', 'passed', 'failed', 'failed']);
    expect(record.remarks.join(' ')).toContain('diffuses through wet pores');
    expect(record.baselineKpaMin).toBeCloseTo(0.55, 1);
    await client.get(path('integrity-tests', other)).expect(404);
    await client.get(path('integrity', other)).expect(404);
    await client.get(path('integrity-setup')).expect(403);
    await client.post(path('integrity-tests'), TEST).expect(403);
  });

  test('says which value cannot be', async () => {
    const refused = async (about: object) =>
      (await technician.post(path('integrity-tests'), { ...TEST, at: '2026-11-22T08:00:00Z', ...about }).expect(400)).body.errors.map(
        ({ pointer }: { pointer: string }) => pointer,
      );
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
      .set('if-match', '"3"')
      .send({ ...SETUP, creditLrv: 3.5 })
      .expect(200);
    expect(body).toMatchObject({ creditLrv: 3.5, version: 4 });
    await put().set('if-match', '"3"').send(SETUP).expect(412);
    await technician.call('put', path('integrity-setup')).send(SETUP).expect(403);
  });

  test('that no test could pass is refused, and one of nobody is not there', async () => {
    const { body } = await manager
      .call('put', path('integrity-setup'))
      .set('if-match', '"4"')
      .send({ ...SETUP, highestTestKpa: 60 })
      .expect(400);
    expect(body.errors).toEqual([{ pointer: '#/highestTestKpa', message: expect.stringContaining('none would count') }]);
    await manager.get(path('integrity-setup', other)).expect(404);
    await manager.call('put', `/api/skids/${randomUUID()}/integrity-setup`).send(SETUP).expect(404);
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
    const areas = await prisma.skidArea.findMany({ where: { skidId }, orderBy: { fromDay: 'asc' } });
    expect(areas.map(({ fromDay, areaM2 }) => [fromDay.toISOString().slice(0, 10), areaM2])).toEqual([
      ['2020-01-01', 600],
      ['2026-11-21', 597],
    ]);
    const { body: record } = await client.get(path('integrity')).expect(200);
    expect(record.modules[0]).toMatchObject({ positionName: 'M-01', fibres: 90, share: 0.01, mark: 'replace the module' });
    expect(record.breaksPerMillionYear).toBeCloseTo((90 / 18_000) * 1e6, 6);
  });

  test('take their area from later entries too, by the calendar of the site', async () => {
    const { prisma } = app.get(Database);
    const { id: skidId } = skid;
    await prisma.skidArea.create({ data: { skidId, fromDay: new Date('2026-11-23'), areaM2: 500 } });
    const [, second] = await prisma.position.findMany({ where: { skidId, kind: 'module' }, orderBy: { name: 'asc' } });
    const repair = { positionId: second?.id, at: '2026-11-21T23:30:00Z', fibres: 9 };
    const { body } = await technician.post(path('fibre-repairs'), repair).expect(201);
    expect(body).toMatchObject({ positionName: 'M-02', areaLostM2: expect.closeTo((597 / 2 / 9000) * 9, 9) });
    const areas = await prisma.skidArea.findMany({ where: { skidId }, orderBy: { fromDay: 'asc' } });
    expect(areas.map(({ fromDay }) => fromDay.toISOString().slice(0, 10))).toEqual(['2020-01-01', '2026-11-21', '2026-11-22', '2026-11-23']);
    expect(areas[3]?.areaM2).toBeCloseTo(500 - body.areaLostM2, 9);
    const { body: list } = await client.get(path('fibre-repairs')).expect(200);
    expect(list.items.map(({ positionName, fibres }: { positionName: string; fibres: number }) => [positionName, fibres])).toEqual([
      ['M-02', 9],
      ['M-01', 90],
    ]);
    await client.get(path('fibre-repairs', other)).expect(404);
  });

  test('are no more than the module has', async () => {
    const positionId = (await client.get(path('integrity')).expect(200)).body.modules[0].positionId;
    const { body } = await technician.post(path('fibre-repairs'), { positionId, fibres: 8_910 }).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/fibres', message: 'M-01 has 9000 fibres, 90 of them closed before: 8910 more would leave none' }]);
    await technician.post(path('fibre-repairs'), { positionId, fibres: 0 }).expect(400);
  });

  test('of a module that was exchanged begin anew', async () => {
    const { prisma } = app.get(Database);
    const positionId = (await client.get(path('integrity')).expect(200)).body.modules[0].positionId;
    const item = await prisma.item.create({ data: { code: 'UF-M', name: 'Module', kind: 'module' } });
    await manager.post(`/api/positions/${positionId}/fittings`, { itemId: item.id, serialNumber: 'M-9', at: '2026-11-22T10:00:00Z' }).expect(201);
    const { modules, remarks } = (await client.get(path('integrity')).expect(200)).body;
    expect(modules[0]).toMatchObject({ fibres: 0, mark: null });
    expect(remarks.join(' ')).toContain('A module was fitted at M-01 on 22 Nov 2026, and the active area still lacks the 3 m²');
  });

  test('that are entered late belong to the module of their day, and the area is given back by people', async () => {
    const { positionId } = (await client.get(path('integrity')).expect(200)).body.modules[0];
    await technician.post(path('fibre-repairs'), { positionId, at: '2026-11-22T09:00:00Z', fibres: 6 }).expect(201);
    await technician.post(path('fibre-repairs'), { positionId, at: '2026-11-22T11:00:00Z', fibres: 4 }).expect(201);
    await manager.call('put', `/api/skids/${skid.id}/areas`).send({ fromDay: '2026-11-22', areaM2: 600 }).expect(200);
    const { modules, remarks } = (await client.get(path('integrity')).expect(200)).body;
    expect(modules[0]).toMatchObject({ fibres: 4 });
    expect(remarks.join(' ')).not.toContain('still lacks');
  });

  test('are of a module of the skid', async () => {
    const { body } = await technician.post(path('fibre-repairs'), { positionId: randomUUID(), fibres: 1 }).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/positionId', message: expect.stringContaining('no module of this skid') }]);
  });
});
