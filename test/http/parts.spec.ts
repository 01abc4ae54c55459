import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { endRecord, type Made, make, pointersOf, takeToBeJudged } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
let app: NestFastifyApplication;
let manager: Api;
let technician: Api;
let storekeeper: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  storekeeper = await signInAs(app, 'storekeeper');
  [skid] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
});
afterAll(() => app?.close());

describe('positions and parts', () => {
  let pump: Made;
  let seal: Made;
  let item: Made;

  test('positions nest once', async () => {
    pump = await make(manager, '/api/positions', { skidId: skid.id, kind: 'feed pump', name: 'P-101' });
    expect(pump).toMatchObject({ clientId: skid.clientId, parentId: null, fitted: null, strokesPerCycle: null });
    seal = await make(manager, '/api/positions', { skidId: skid.id, parentId: pump.id, kind: 'seal', name: 'P-101 seal' });
    const deeper = await manager.post('/api/positions', { skidId: skid.id, parentId: seal.id, kind: 'other', name: 'Spring' }).expect(400);
    expect(deeper.body.errors[0]).toMatchObject({ pointer: '#/parentId', message: expect.stringContaining('only once') });
    await manager.post('/api/positions', { skidId: skid.id, parentId: NOBODY, kind: 'other', name: 'Spring' }).expect(400);
    await manager.post('/api/positions', { skidId: skid.id, kind: 'feed pump', name: 'P-101' }).expect(409);
    await manager.post('/api/positions', { skidId: skid.id, kind: 'gadget', name: 'P-102' }).expect(400);
    await manager.patch(`/api/positions/${pump.id}`, 1, { parentId: pump.id }).expect(400);
    expect((await manager.get(`/api/positions?skidId=${skid.id}`)).body.items.map((place: Made) => place.name)).toEqual(['P-101', 'P-101 seal']);
  });

  test('items are the storekeeper’s too', async () => {
    item = await make(storekeeper, '/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' });
    expect(item).toMatchObject({ unit: 'C62', version: 1 });
    await technician.post('/api/items', { code: 'X', name: 'X', kind: 'seal' }).expect(403);
    await storekeeper.post('/api/items', { code: 'SEAL-25', name: 'Another', kind: 'seal' }).expect(409);
    await storekeeper.post('/api/items', { code: 'X', name: 'X', kind: 'seal', unit: 'piece' }).expect(400);
    item = (await storekeeper.patch(`/api/items/${item.id}`, 1, { note: 'Viton' }).expect(200)).body;
    expect((await technician.get('/api/items?kind=seal&find=viton')).body.items).toEqual([item]);
  });

  const fit = (body: object, position = seal) => technician.post(`/api/positions/${position.id}/fittings`, body);

  test('a part is fitted by its serial number', async () => {
    await takeToBeJudged(app);
    const { body } = await fit({ itemId: item.id, serialNumber: 'S-1', at: '2026-01-10T10:00:00Z' }).expect(201);
    expect(body).toMatchObject({
      itemCode: 'SEAL-25',
      serialNumber: 'S-1',
      setCount: 1,
      fittedAt: '2026-01-10T10:00:00.000Z',
      fittedBy: 'A technician',
      removedAt: null,
    });
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    expect((await manager.get(`/api/positions/${seal.id}`)).body.fitted).toMatchObject({ serialNumber: 'S-1', fittingId: body.id });
  });

  test('another one replaces it, which says why', async () => {
    await fit({ itemId: item.id, serialNumber: 'S-2' }).expect(409);
    await fit({ itemId: item.id, serialNumber: 'S-2', removalReason: ' ' }).expect(400);
    await fit({ itemId: item.id, serialNumber: 'S-2', at: '2026-01-10T10:00:00Z', removalReason: 'failed' }).expect(400);
    await fit({ itemId: item.id, serialNumber: 'S-2', at: '2026-12-10T10:00:00Z', removalReason: 'failed' }).expect(400);
    await fit({ itemId: item.id, serialNumber: 'S-2', at: '2026-06-10T10:00:00Z', removalReason: 'failed' }).expect(201);
    const { body } = await technician.get(`/api/positions/${seal.id}/fittings`).expect(200);
    expect(body.items).toMatchObject([
      { serialNumber: 'S-2', removedAt: null },
      { serialNumber: 'S-1', removedAt: '2026-06-10T10:00:00.000Z', removedBy: 'A technician', removalReason: 'failed' },
    ]);
    const page = await technician.get(`/api/positions/${seal.id}/fittings?limit=1`).expect(200);
    const rest = await technician.get(`/api/positions/${seal.id}/fittings?limit=1&cursor=${page.body.next}`).expect(200);
    expect([...page.body.items, ...rest.body.items]).toEqual(body.items);
    await technician.get(`/api/positions/${seal.id}/fittings?cursor=${Buffer.from('["x"]').toString('base64url')}`).expect(400);
  });

  test('a part is in one place at a time, and comes back by its serial number', async () => {
    const spare = await make(manager, '/api/positions', { skidId: skid.id, kind: 'seal', name: 'P-102 seal' });
    const { body } = await fit({ itemId: item.id, serialNumber: 'S-2' }, spare).expect(409);
    expect(body.title).toContain('P-101 seal');
    await fit({ itemId: item.id, serialNumber: 'S-1', at: '2026-03-01T00:00:00Z' }, spare).expect(400);
    const back = await fit({ itemId: item.id, serialNumber: 'S-1', at: '2026-07-01T00:00:00Z' }, spare).expect(201);
    const { body: parts } = await storekeeper.get(`/api/parts?itemId=${item.id}&find=s-1`).expect(200);
    expect(parts.items).toMatchObject([{ id: back.body.partId, positionName: 'P-102 seal', skidId: skid.id }]);
    const removed = await technician.post(`/api/fittings/${back.body.id}/removal`, { reason: 'moved elsewhere', at: '2026-08-01T00:00:00Z' }).expect(200);
    expect(removed.body).toMatchObject({ removedAt: '2026-08-01T00:00:00.000Z', removalReason: 'moved elsewhere' });
    await technician.post(`/api/fittings/${back.body.id}/removal`, { reason: 'failed' }).expect(409);
    await technician.post(`/api/fittings/${NOBODY}/removal`, { reason: 'failed' }).expect(404);
    await fit({ partId: back.body.partId, at: '2026-07-15T00:00:00Z' }, spare).expect(400);
    await fit({ partId: back.body.partId }, spare).expect(201);
  });

  test('a set is fitted and removed together', async () => {
    const housing = await make(manager, '/api/positions', { skidId: skid.id, kind: 'pre-filter', name: 'F-1' });
    const cartridge = await make(manager, '/api/items', { code: 'C-40', name: 'Cartridge 40 in', kind: 'cartridge' });
    const { body } = await fit({ itemId: cartridge.id, setCount: 12, lot: 'L7' }, housing).expect(201);
    expect(body).toMatchObject({ serialNumber: null, setCount: 12, lot: 'L7' });
  });

  test.each([
    [{}, '#/itemId'],
    [{ partId: NOBODY }, '#/partId'],
    [{ itemId: NOBODY }, '#/itemId'],
    [{ partId: NOBODY, serialNumber: 'S-9' }, '#/partId'],
    [{ setCount: 1.5 }, '#/setCount'],
    [{ at: '2026-02-30T10:00:00Z' }, '#/at'],
  ])('fitting %j is refused', async (body, pointer) => {
    expect(pointersOf((await fit(body).expect(400)).body)).toContain(pointer);
  });

  test('two who fit at once leave one part there', async () => {
    const place = await make(manager, '/api/positions', { skidId: skid.id, kind: 'seal', name: 'P-103 seal' });
    const answers = await Promise.all(['R-1', 'R-2', 'R-3'].map((serialNumber) => fit({ itemId: item.id, serialNumber }, place)));
    expect(answers.map(({ status }) => String(status)).sort()).toEqual(['201', '409', '409']);
    expect((await technician.get(`/api/positions/${place.id}/fittings`)).body.items).toHaveLength(1);
  });

  test('a position ends when it is empty', async () => {
    await endRecord(manager, '/api/positions', pump).expect(409); // its seal is still there
    await endRecord(manager, '/api/positions', seal).expect(409); // and a part in it
    const fitted = (await manager.get(`/api/positions/${seal.id}`)).body.fitted.fittingId;
    await technician.post(`/api/fittings/${fitted}/removal`, { reason: 'worn out' }).expect(200);
    await endRecord(manager, '/api/positions', seal).expect(204);
    await endRecord(manager, '/api/positions', pump).expect(204);
    await fit({ itemId: item.id, serialNumber: 'S-5' }).expect(409);
    await manager.patch(`/api/positions/${seal.id}`, 2, { name: 'X' }).expect(400);
  });
});

describe('meters and tanks', () => {
  test('a meter counts one thing of a machine', async () => {
    const blower = await make(manager, '/api/positions', { skidId: skid.id, kind: 'blower', name: 'B-1' });
    const meter = await make(manager, '/api/meters', { positionId: blower.id, kind: 'run hours', modulus: 100_000 });
    expect(meter).toMatchObject({ skidId: skid.id, positionName: 'B-1', modulus: 100_000, version: 1 });
    await manager.post('/api/meters', { positionId: blower.id, kind: 'run hours' }).expect(409);
    await manager.post('/api/meters', { positionId: NOBODY, kind: 'run hours' }).expect(400);
    await takeToBeJudged(app);
    expect((await manager.patch(`/api/meters/${meter.id}`, 1, { modulus: null }).expect(200)).body.modulus).toBeNull();
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    expect((await technician.get(`/api/meters?skidId=${skid.id}`)).body.items).toHaveLength(1);
    expect((await technician.get(`/api/meters?positionId=${NOBODY}`)).body.items).toEqual([]);
  });

  test('a tank has the measures that its shape needs', async () => {
    const tank = { skidId: skid.id, name: 'Hypo', chemical: 'sodium hypochlorite', shape: 'vertical-cylinder', heightM: 1.2, capacityL: 1000 };
    expect(pointersOf((await manager.post('/api/tanks', tank).expect(400)).body)).toEqual(['#/diameterM']);
    const made = await make(manager, '/api/tanks', { ...tank, diameterM: 1.05, heelL: 40, strengthGL: 150 });
    expect(made).toMatchObject({ clientId: skid.clientId, diameterM: 1.05, heelL: 40, doseMgL: null, version: 1 });
    expect(pointersOf((await manager.patch(`/api/tanks/${made.id}`, 1, { heelL: 1000 }).expect(400)).body)).toEqual(['#/heelL']);
    await manager.patch(`/api/tanks/${made.id}`, 1, { shape: 'rectangular' }).expect(400);
    expect((await manager.patch(`/api/tanks/${made.id}`, 1, { doseMgL: 0.5 }).expect(200)).body).toEqual({ ...made, doseMgL: 0.5, version: 2 });
    expect((await technician.get(`/api/tanks?skidId=${skid.id}&find=HYPO`)).body.items).toHaveLength(1);
  });
});
