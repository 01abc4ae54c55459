import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { endRecord, type Made, make, pointersOf, takeToBeJudged } from '../support/records.js';
import { signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const NOBODY = '0192f0c1-2345-7678-9abc-def012345678';
let app: NestFastifyApplication;
let manager: Api;
let technician: Api;
let storekeeper: Api;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  storekeeper = await signInAs(app, 'storekeeper');
});
afterAll(() => app?.close());

let client: Made;
let site: Made;
let skid: Made;

describe('clients and sites', () => {
  test('are made with names of any script', async () => {
    client = await make(manager, '/api/clients', { name: '  醸造所 Älv & Sønner  ', note: 'Ring first' });
    expect(client).toEqual({ id: client.id, name: '醸造所 Älv & Sønner', note: 'Ring first', endedOn: null, version: 1 });
    site = await make(manager, '/api/sites', { clientId: client.id, name: 'Verk Nord', timeZone: 'Europe/Oslo', latitude: 59.9, longitude: 10.7 });
    expect(site).toMatchObject({ clientName: client.name, timeZone: 'Europe/Oslo', latitude: 59.9, accessHours: '', endedOn: null, version: 1 });
    expect((await manager.get(`/api/sites/${site.id}`).expect(200)).body).toEqual(site);
  });

  test.each([
    ['/api/clients', { name: '' }, ['#/name']],
    ['/api/clients', { name: 'x'.repeat(121) }, ['#/name']],
    ['/api/clients', { name: 'a\0b' }, ['#/name']],
    ['/api/clients', { name: 'X', note: 'a\0b' }, ['#/note']],
    ['/api/clients', { name: 'X', note: null }, ['#/note']],
    ['/api/clients', { name: 'X', colour: 'red' }, ['#/colour']],
    ['/api/clients', [], ['#/name']],
    ['/api/sites', { clientId: 'x', name: 'S', timeZone: 'UTC' }, ['#/clientId']],
    ['/api/sites', { clientId: NOBODY, name: 'S', timeZone: 'UTC' }, ['#/clientId']],
    ['/api/sites', { clientId: NOBODY, name: 'S', timeZone: 'Mars/Olympus' }, ['#/timeZone']],
    ['/api/sites', { clientId: NOBODY, name: 'S', timeZone: '+01:00' }, ['#/timeZone']],
    ['/api/sites', { clientId: NOBODY, name: 'S', timeZone: 'UTC', latitude: 91, longitude: '10' }, ['#/latitude', '#/longitude']],
  ])('%s refuses %j', async (path, body, pointers) => {
    const answer = await manager.post(path, body).expect(400);
    expect(answer.get('content-type')).toContain('application/problem+json');
    expect(pointersOf(answer.body)).toEqual(pointers);
  });

  test('need both numbers of a place or none', async () => {
    const { body } = await manager.post('/api/sites', { clientId: client.id, name: 'S', timeZone: 'UTC', latitude: 1 }).expect(400);
    expect(pointersOf(body)).toEqual(['#/longitude']);
    await manager.patch(`/api/sites/${site.id}`, 1, { latitude: null }).expect(400);
    const { body: moved } = await manager.patch(`/api/sites/${site.id}`, 1, { latitude: null, longitude: null }).expect(200);
    expect(moved).toEqual({ ...site, latitude: null, longitude: null, version: 2 });
    site = moved;
  });

  test('keep their names apart', async () => {
    const { body } = await manager.post('/api/clients', { name: client.name }).expect(409);
    expect(pointersOf(body)).toEqual(['#/name']);
    await manager.post('/api/sites', { clientId: client.id, name: 'Verk Nord', timeZone: 'UTC' }).expect(409);
  });

  test('are edited by version, of which the answer tells the tag', async () => {
    const read = await manager.get(`/api/clients/${client.id}`).expect(200);
    expect(read.get('etag')).toBe('"1"');
    const edited = await manager.patch(`/api/clients/${client.id}`, 1, { note: '' }).expect(200);
    expect(edited.get('etag')).toBe('"2"');
    expect(edited.body).toEqual({ ...client, note: '', version: 2 });
    await manager.patch(`/api/clients/${client.id}`, 1, { note: 'lost?' }).expect(412);
    await manager.call('patch', `/api/clients/${client.id}`).send({ note: 'x' }).expect(428);
    await manager.call('patch', `/api/clients/${client.id}`).set('if-match', 'W/"2"').send({ note: 'x' }).expect(400);
    await manager.patch(`/api/clients/${NOBODY}`, 1, {}).expect(404);
    await manager.get(`/api/clients/${NOBODY}`).expect(404);
    await manager.get('/api/clients/7').expect(400);
    client = edited.body;
  });

  test('are found by words as they stand, page by page', async () => {
    for (const name of ['100 % Juice', '100 g Juice', 'Under_score', 'UnderXscore']) await make(manager, '/api/clients', { name });
    const names = async (query: string) => (await manager.get(`/api/clients?${query}`).expect(200)).body.items.map((item: Made) => item.name);
    expect(await names('find=100%20%25')).toEqual(['100 % Juice']);
    expect(await names('find=er_sc')).toEqual(['Under_score']);
    expect(await names('find=JUICE')).toEqual(expect.arrayContaining(['100 % Juice', '100 g Juice']));
    const all: string[] = [];
    let next: string | null = null;
    do {
      const { body }: { body: { items: { name: string }[]; next: string | null } } = await manager
        .get(`/api/clients?limit=2${next === null ? '' : `&cursor=${next}`}`)
        .expect(200);
      all.push(...body.items.map((item) => item.name));
      next = body.next;
    } while (next !== null);
    expect(all).toEqual(await names('limit=200'));
    expect(all).toHaveLength(5);
    for (const query of [
      'limit=201',
      'limit=x',
      'cursor=zzz',
      `cursor=${Buffer.from('[1,2]').toString('base64url')}`,
      'what=1',
      'find=a%00',
      `cursor=${Buffer.from(JSON.stringify(['a\0', NOBODY])).toString('base64url')}`,
      `find=${'x'.repeat(101)}`,
    ]) {
      await manager.get(`/api/clients?${query}`).expect(400);
    }
  });
});

describe('skids', () => {
  const fields = {
    name: 'UF 1',
    serialNumber: 'A-100',
    water: 'Well water',
    ratedFlowM3h: 40,
    flowScheme: 'dead-end',
    tmpFrom: 'pressures',
    commissionedOn: '2025-02-28',
    cartridgeLimitKpa: 150,
    cartridgeReferenceFlowM3h: 40,
  };

  test('are made with their area and state, and judged', async () => {
    skid = await make(manager, '/api/skids', { ...fields, siteId: site.id, areas: [{ fromDay: '2025-02-28', areaM2: 640 }] });
    expect(skid).toMatchObject({
      ...fields,
      clientId: client.id,
      siteName: 'Verk Nord',
      timeZone: 'Europe/Oslo',
      kind: 'skid',
      serviceState: 'in service',
      referenceC: 20,
    });
    expect(skid.areas).toEqual([{ fromDay: '2025-02-28', areaM2: 640 }]);
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    expect((await technician.get(`/api/skids/${skid.id}`).expect(200)).body).toEqual(skid);
    const { body } = await technician.get(`/api/skids/${skid.id}/service-states`).expect(200);
    expect(body).toEqual([{ state: 'in service', at: NOW.toISOString(), by: 'A manager', note: '' }]);
  });

  test.each([
    [{ commissionedOn: '2026-02-30' }, '#/commissionedOn'],
    [{ commissionedOn: '28.02.2025' }, '#/commissionedOn'],
    [{ ratedFlowM3h: '40' }, '#/ratedFlowM3h'],
    [{ ratedFlowM3h: 0 }, '#/ratedFlowM3h'],
    [{ flowScheme: 'sideways' }, '#/flowScheme'],
    [{ permeabilityLimitFraction: 7 }, '#/permeabilityLimitFraction'],
    [{ referenceC: null }, '#/referenceC'],
    [{ siteId: NOBODY }, '#/siteId'],
    [{ areas: [{ fromDay: '2025-13-01', areaM2: 5 }] }, '#/areas/0/fromDay'],
    [{ areas: [{ fromDay: '2025-01-01', areaM2: -5 }] }, '#/areas/0/areaM2'],
    [{ serves: [NOBODY] }, '#/serves'],
    [{ no: 7 }, '#/no'],
    [{ clientId: NOBODY }, '#/clientId'],
  ])('refuse %j', async (change, pointer) => {
    const { body } = await manager.post('/api/skids', { ...fields, siteId: site.id, name: 'UF X', ...change }).expect(400);
    expect(pointersOf(body)).toContain(pointer);
  });

  test('are told apart by kind, site and client', async () => {
    const cip = await make(manager, '/api/skids', { siteId: site.id, name: 'CIP unit', kind: 'shared', serves: [skid.id] });
    expect(cip.serves).toEqual([skid.id]);
    const ids = async (query: string) => (await manager.get(`/api/skids?${query}`).expect(200)).body.items.map((item: Made) => item.id);
    expect(await ids('kind=shared')).toEqual([cip.id]);
    expect(await ids(`siteId=${site.id}`)).toEqual([cip.id, skid.id]);
    expect(await ids(`clientId=${client.id}&kind=skid`)).toEqual([skid.id]);
    expect(await ids(`clientId=${NOBODY}`)).toEqual([]);
    expect(await ids('find=a-100')).toEqual([skid.id]);
    expect((await manager.get(`/api/skids/${skid.id}`)).body.servedBy).toEqual([cip.id]);
    expect((await manager.put(`/api/skids/${cip.id}/serves`, { skidIds: [] }).expect(200)).body.serves).toEqual([]);
    await manager.put(`/api/skids/${cip.id}/serves`, { skidIds: [cip.id] }).expect(400);
    await manager.put(`/api/skids/${skid.id}/serves`, { skidIds: [skid.id] }).expect(400);
  });

  test('are edited: what is left out stays, what is null is unknown', async () => {
    await takeToBeJudged(app);
    const { body } = await manager.patch(`/api/skids/${skid.id}`, 1, { commissionedOn: null, permeabilityLimitFraction: 0.65 }).expect(200);
    expect(body).toEqual({ ...skid, commissionedOn: null, permeabilityLimitFraction: 0.65, servedBy: [], version: 2 });
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    skid = body;
    await manager.patch(`/api/skids/${skid.id}`, 2, { kind: 'shared' }).expect(400);
    await manager.patch(`/api/skids/${skid.id}`, 2, { name: null }).expect(400);
  });

  test('stay with their client when they are moved', async () => {
    const other = await make(manager, '/api/clients', { name: 'Elsewhere' });
    const foreign = await make(manager, '/api/sites', { clientId: other.id, name: 'Far', timeZone: 'UTC' });
    const near = await make(manager, '/api/sites', { clientId: client.id, name: 'Near', timeZone: 'UTC' });
    const { body } = await manager.patch(`/api/skids/${skid.id}`, 2, { siteId: foreign.id }).expect(400);
    expect(pointersOf(body)).toEqual(['#/siteId']);
    expect((await manager.patch(`/api/skids/${skid.id}`, 2, { siteId: near.id }).expect(200)).body).toMatchObject({ siteName: 'Near', timeZone: 'UTC' });
    skid = (await manager.patch(`/api/skids/${skid.id}`, 3, { siteId: site.id }).expect(200)).body;
  });

  test('change their area from a day on', async () => {
    await takeToBeJudged(app);
    const { body } = await manager.put(`/api/skids/${skid.id}/areas`, { fromDay: '2026-05-01', areaM2: 600 }).expect(200);
    expect(body.areas).toEqual([
      { fromDay: '2025-02-28', areaM2: 640 },
      { fromDay: '2026-05-01', areaM2: 600 },
    ]);
    expect(await takeToBeJudged(app)).toEqual([skid.id]);
    expect((await manager.put(`/api/skids/${skid.id}/areas`, { fromDay: '2026-05-01', areaM2: 620 })).body.areas[1]).toEqual({
      fromDay: '2026-05-01',
      areaM2: 620,
    });
    expect((await manager.delete(`/api/skids/${skid.id}/areas/2026-05-01`).expect(200)).body.areas).toHaveLength(1);
    await manager.delete(`/api/skids/${skid.id}/areas/2026-05-01`).expect(404);
    await manager.delete(`/api/skids/${skid.id}/areas/2026-02-30`).expect(400);
    await manager.put(`/api/skids/${NOBODY}/areas`, { fromDay: '2026-05-01', areaM2: 600 }).expect(404);
  });

  test('are in the state of the latest change, in whichever order the changes are told', async () => {
    const tell = (change: object) => technician.post(`/api/skids/${skid.id}/service-state`, change);
    app.get(Clock).now = () => new Date(NOW.getTime() + 3_600_000);
    await tell({ state: 'laid up', note: 'No harvest' }).expect(201);
    const { body } = await tell({ state: 'out of service', at: '2026-11-20T08:00:00+01:00' }).expect(201);
    expect(body.map(({ state }: { state: string }) => state)).toEqual(['laid up', 'in service', 'out of service']);
    expect((await manager.get(`/api/skids/${skid.id}`)).body.serviceState).toBe('laid up');
    for (const change of [{ state: 'asleep' }, { state: 'retired', at: '2026-11-26T00:00:00Z' }, { state: 'retired', at: '2026-11-20' }])
      await tell(change).expect(400);
    app.get(Clock).now = () => NOW;
    await storekeeper.post(`/api/skids/${skid.id}/service-state`, { state: 'retired' }).expect(403);
  });
});

describe('a request with an Idempotency-Key', () => {
  const key = '7d444840-9dc0-41d1-b245-5ffdce74fad2';
  const send = (name: string) => manager.post('/api/clients', { name }).set('idempotency-key', key);

  test('is carried out once, and answered alike again', async () => {
    const first = await send('Once only').expect(201);
    const second = await send('Once only').expect(201);
    expect(second.body).toEqual(first.body);
    await send('Something else').expect(422);
    await storekeeper.post('/api/items', { code: 'K-1', name: 'Key', kind: 'other' }).set('idempotency-key', key).expect(201);
    await manager.post('/api/clients', { name: 'X' }).set('idempotency-key', 'x').expect(400);
  });

  test('may be sent again when it was refused', async () => {
    const again = '7d444840-9dc0-41d1-b245-5ffdce74fad3';
    await manager.post('/api/clients', { name: 'Once only' }).set('idempotency-key', again).expect(409);
    await manager.post('/api/clients', { name: 'Other' }).set('idempotency-key', again).expect(201);
  });
});

describe('records end by date', () => {
  test('from the smallest to the largest, and stay to be read', async () => {
    const owner = await make(manager, '/api/clients', { name: 'Brief' });
    const place = await make(manager, '/api/sites', { clientId: owner.id, name: 'Here', timeZone: 'UTC' });
    const unit = await make(manager, '/api/skids', { siteId: place.id, name: 'UF' });
    await endRecord(manager, '/api/clients', owner).expect(409);
    await endRecord(manager, '/api/sites', place).expect(409);
    for (const on of ['2026-02-30', '2026-12-24', 'today']) await endRecord(manager, '/api/skids', unit, on).expect(400);
    await manager.post(`/api/skids/${unit.id}/end`, { on: '2026-11-01' }).expect(428);
    await endRecord(manager, '/api/skids', { ...unit, version: 9 }).expect(412);
    await endRecord(manager, '/api/skids', unit, '2026-11-01').expect(204);
    await endRecord(manager, '/api/skids', { ...unit, version: 2 }).expect(400);
    expect((await manager.get(`/api/skids/${unit.id}`)).body).toMatchObject({ endedOn: '2026-11-01', version: 2 });
    await manager.post('/api/positions', { skidId: unit.id, kind: 'valve', name: 'V' }).expect(400);
    await endRecord(manager, '/api/sites', place).expect(204);
    await manager.post('/api/skids', { siteId: place.id, name: 'UF 2' }).expect(400);
    await endRecord(manager, '/api/clients', owner).expect(204);
    await manager.post('/api/sites', { clientId: owner.id, name: 'There', timeZone: 'UTC' }).expect(400);
    expect((await manager.get('/api/clients?find=Brief')).body.items).toEqual([]);
    expect((await manager.get('/api/clients?find=Brief&ended=true')).body.items).toMatchObject([{ id: owner.id, endedOn: '2026-11-25' }]);
  });
});
