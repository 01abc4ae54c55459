import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, newId } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { type Made, make, pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const AT = '2026-11-20T10:00:00Z';
let app: NestFastifyApplication;
let storekeeper: Api;
let store: Made;
let van: Made;
let repairer: Made;
let pump: Made;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  [skid] = (await makeSkids(app, 'Works', 1)) as [SmallSkid];
  storekeeper = await signInAs(app, 'storekeeper');
  store = await make(storekeeper, '/api/places', { name: 'North', kind: 'store' });
  van = await make(storekeeper, '/api/places', { name: 'South', kind: 'store' });
  repairer = await make(storekeeper, '/api/places', { name: 'Winding works', kind: 'repair' });
  pump = await make(storekeeper, '/api/items', { code: 'PUMP', name: 'Feed pump', kind: 'pump' });
});
afterAll(() => app?.close());

/** A pump by serial number that lies in the store. */
async function pumpInStore(serialNumber: string): Promise<string> {
  const { id } = await app.get(Database).prisma.part.create({ data: { itemId: pump.id, serialNumber } });
  const moves = [{ itemId: pump.id, partId: id, quantity: '1', toPlaceId: store.id }];
  await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind: 'return', at: AT, moves }).expect(201);
  return id;
}

/** It served between two days and ran so many hours. */
async function served(partId: string, from: string, to: string, hours: number): Promise<void> {
  const { prisma } = app.get(Database);
  const position = await prisma.position.create({ data: { clientId: skid.clientId, skidId: skid.id, kind: 'pump', name: `Pump ${newId()}` } });
  const at = { fittedAt: new Date(from), removedAt: new Date(to), removalReason: 'failed' };
  const fitting = await prisma.fitting.create({
    data: { clientId: skid.clientId, positionId: position.id, partId, fittedBy: 'A technician', removedBy: 'A technician', ...at },
  });
  const of = { fittingId: fitting.id, skidNo: skid.no, positionId: position.id, partId, positionKind: 'pump', ended: 'failed', endedOn: at.removedAt };
  await prisma.partLife.createMany({ data: [{ ...of, clock: 'run hours', life: hours }] });
}

const send = (partId: string, more: object = {}) =>
  storekeeper.post('/api/repairs', { id: randomUUID(), partId, fromPlaceId: store.id, repairPlaceId: repairer.id, at: AT, fault: 'It hums', ...more });
const back = (id: string, outcome: string, more: object = {}) =>
  storekeeper.post(`/api/repairs/${id}/back`, { id: randomUUID(), at: '2026-11-24T08:00:00Z', outcome, placeId: van.id, ...more });
const whereIs = async (serial: string) =>
  (await storekeeper.get(`/api/stock?find=${serial}`).expect(200)).body.items.map(({ placeName }: { placeName: string }) => placeName);

describe('a part that goes out for repair', () => {
  test('takes its serial number and what it has run along, and is late when its day has passed', async () => {
    const part = await pumpInStore('S-1');
    await served(part, '2025-01-01T00:00:00Z', '2026-01-01T00:00:00Z', 4100.26);
    const body = { id: randomUUID(), partId: part, fromPlaceId: store.id, repairPlaceId: repairer.id, at: AT, expectedOn: '2026-11-24', fault: 'It hums' };
    const first = (await storekeeper.post('/api/repairs', body).expect(201)).body;
    expect(first).toMatchObject({
      itemCode: 'PUMP',
      serialNumber: 'S-1',
      fromPlaceName: 'North',
      repairPlaceName: 'Winding works',
      late: true,
      fault: 'It hums',
      outcome: null,
      counters: [{ kind: 'run hours', run: 4100.3 }],
    });
    expect((await storekeeper.post('/api/repairs', body).expect(201)).body).toEqual(first);
    expect((await storekeeper.get('/api/repairs?open=true').expect(200)).body.items).toEqual([first]);
    expect(await whereIs('S-1')).toEqual(['Winding works']);
    const again = await send(part).expect(409);
    expect(again.body.title).toBe('Serial number S-1 is out for repair already at Winding works since 2026-11-20. Enter how it came back first');
    expect((await storekeeper.post('/api/repairs', { ...body, fromPlaceId: van.id }).expect(422)).body.code).toBe('store/post-id-used');
  });

  test('comes back to a place once, and its counters go on where it was repaired and begin anew where it was overhauled', async () => {
    const part = await pumpInStore('S-2');
    await served(part, '2025-01-01T00:00:00Z', '2026-01-01T00:00:00Z', 1000);
    const { id } = (await send(part).expect(201)).body;
    const body = { id: randomUUID(), at: '2026-11-21T08:00:00Z', outcome: 'repaired', placeId: store.id, done: 'New bearings' };
    const came = (await storekeeper.post(`/api/repairs/${id}/back`, body).expect(200)).body;
    expect(came).toMatchObject({ outcome: 'repaired', done: 'New bearings', backBy: 'A storekeeper', late: false });
    expect((await storekeeper.post(`/api/repairs/${id}/back`, body).expect(200)).body).toEqual(came);
    expect((await back(id, 'repaired').expect(409)).body.title).toContain('This repair has ended: repaired on 2026-11-21');
    expect(await whereIs('S-2')).toEqual(['North']);

    const second = (await send(part, { at: '2026-11-22T08:00:00Z' }).expect(201)).body;
    expect(second.counters).toEqual([{ kind: 'run hours', run: 1000 }]);
    await back(second.id, 'overhauled', { at: '2026-11-23T08:00:00Z', placeId: store.id }).expect(200);
    await served(part, '2026-11-23T09:00:00Z', '2026-11-24T09:00:00Z', 24);
    expect((await send(part, { at: '2026-11-24T10:00:00Z' }).expect(201)).body.counters).toEqual([{ kind: 'run hours', run: 24 }]);
  });

  test('is scrapped there with the reason, and leaves stock by its repair alone', async () => {
    const part = await pumpInStore('S-3');
    const { id } = (await send(part).expect(201)).body;
    const moves = [{ itemId: pump.id, partId: part, quantity: '1', fromPlaceId: repairer.id }];
    const byHand = await storekeeper.post('/api/stock/posts', { id: randomUUID(), kind: 'scrap', at: AT, note: 'x', moves }).expect(409);
    expect(byHand.body.title).toContain('scrapped by its repair');
    expect(pointersOf((await back(id, 'scrapped', { placeId: null }).expect(400)).body)).toEqual(['#/done']);
    const post = randomUUID();
    const { body } = await back(id, 'scrapped', { id: post, placeId: null, done: 'The shaft is cracked' }).expect(200);
    expect(body).toMatchObject({ outcome: 'scrapped', done: 'The shaft is cracked' });
    expect(await whereIs('S-3')).toEqual([]);
    await storekeeper.post(`/api/stock/posts/${post}/reverse`, { id: randomUUID(), at: AT, note: 'no' }).expect(409);
  });

  test('is refused in words where it cannot go or come', async () => {
    const part = await pumpInStore('S-4');
    const set = await app.get(Database).prisma.part.create({ data: { itemId: pump.id, setCount: 4 } });
    expect(pointersOf((await send(set.id).expect(400)).body)).toEqual(['#/partId']);
    expect(pointersOf((await send(randomUUID()).expect(400)).body)).toEqual(['#/partId']);
    expect(pointersOf((await send(part, { repairPlaceId: van.id }).expect(400)).body)).toEqual(['#/repairPlaceId']);
    expect((await send(part, { fromPlaceId: van.id }).expect(400)).body.errors[0].message).toContain('lies at North by the ledger, not at South');
    const elsewhere = await app.get(Database).prisma.part.create({ data: { itemId: pump.id, serialNumber: 'S-5' } });
    const missing = await send(elsewhere.id).expect(422);
    expect(missing.body).toMatchObject({ code: 'store/not-on-hand', errors: [{ pointer: '#/partId' }] });
    const { id } = (await send(part).expect(201)).body;
    expect(pointersOf((await back(id, 'repaired', { placeId: null }).expect(400)).body)).toEqual(['#/placeId']);
    expect(pointersOf((await back(id, 'repaired', { at: '2026-11-01T00:00:00Z' }).expect(400)).body)).toEqual(['#/at']);
    await back(randomUUID(), 'repaired').expect(404);
    const { rows } = await app.get(Database).pool.query('SELECT * FROM stock_fault');
    expect(rows).toEqual([]);
  });
});
