import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
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

interface Made {
  id: string;
  version: number;
  [field: string]: unknown;
}
const make = async (path: string, body: object, by = manager): Promise<Made> => (await by.post(path, body).expect(201)).body;
const end = (path: string, { id, version }: Made, on = '2026-11-25') => manager.call('post', `${path}/${id}/end`).set('if-match', `"${version}"`).send({ on });
const pointersOf = (body: { errors?: { pointer: string }[] }) => body.errors?.map((fault) => fault.pointer);
/** Skids that wait for their conclusions to be made again, which are then forgotten. */
const toBeJudged = async (): Promise<string[]> => {
  const { rows } = await app.get(Database).pool.query<{ id: string }>(`DELETE FROM pgboss.job WHERE name = 'recompute-skid' RETURNING data->>'skidId' AS id`);
  return rows.map((row) => row.id);
};

let client: Made;
let site: Made;
let skid: Made;

describe('clients and sites', () => {
  test('are made with names of any script', async () => {
    client = await make('/api/clients', { name: '  醸造所 Älv & Sønner  ', note: 'Ring first' });
    expect(client).toEqual({ id: client.id, name: '醸造所 Älv & Sønner', note: 'Ring first', endedOn: null, version: 1 });
    site = await make('/api/sites', { clientId: client.id, name: 'Verk Nord', timeZone: 'Europe/Oslo', latitude: 59.9, longitude: 10.7 });
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
    for (const name of ['100 % Juice', '100 g Juice', 'Under_score', 'UnderXscore']) await make('/api/clients', { name });
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
    for (const query of ['limit=201', 'limit=x', 'cursor=zzz', `cursor=${Buffer.from('[1,2]').toString('base64url')}`, 'what=1', `find=${'x'.repeat(101)}`]) {
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
    skid = await make('/api/skids', { ...fields, siteId: site.id, areas: [{ fromDay: '2025-02-28', areaM2: 640 }] });
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
    expect(await toBeJudged()).toEqual([skid.id]);
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
    const cip = await make('/api/skids', { siteId: site.id, name: 'CIP unit', kind: 'shared', serves: [skid.id] });
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
    await toBeJudged();
    const { body } = await manager.patch(`/api/skids/${skid.id}`, 1, { commissionedOn: null, permeabilityLimitFraction: 0.65 }).expect(200);
    expect(body).toEqual({ ...skid, commissionedOn: null, permeabilityLimitFraction: 0.65, servedBy: [], version: 2 });
    expect(await toBeJudged()).toEqual([skid.id]);
    skid = body;
    await manager.patch(`/api/skids/${skid.id}`, 2, { kind: 'shared' }).expect(400);
    await manager.patch(`/api/skids/${skid.id}`, 2, { name: null }).expect(400);
  });

  test('stay with their client when they are moved', async () => {
    const other = await make('/api/clients', { name: 'Elsewhere' });
    const foreign = await make('/api/sites', { clientId: other.id, name: 'Far', timeZone: 'UTC' });
    const near = await make('/api/sites', { clientId: client.id, name: 'Near', timeZone: 'UTC' });
    const { body } = await manager.patch(`/api/skids/${skid.id}`, 2, { siteId: foreign.id }).expect(400);
    expect(pointersOf(body)).toEqual(['#/siteId']);
    expect((await manager.patch(`/api/skids/${skid.id}`, 2, { siteId: near.id }).expect(200)).body).toMatchObject({ siteName: 'Near', timeZone: 'UTC' });
    skid = (await manager.patch(`/api/skids/${skid.id}`, 3, { siteId: site.id }).expect(200)).body;
  });

  test('change their area from a day on', async () => {
    await toBeJudged();
    const { body } = await manager.put(`/api/skids/${skid.id}/areas`, { fromDay: '2026-05-01', areaM2: 600 }).expect(200);
    expect(body.areas).toEqual([
      { fromDay: '2025-02-28', areaM2: 640 },
      { fromDay: '2026-05-01', areaM2: 600 },
    ]);
    expect(await toBeJudged()).toEqual([skid.id]);
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

describe('positions and parts', () => {
  let pump: Made;
  let seal: Made;
  let item: Made;

  test('positions nest once', async () => {
    pump = await make('/api/positions', { skidId: skid.id, kind: 'feed pump', name: 'P-101' });
    expect(pump).toMatchObject({ clientId: client.id, parentId: null, fitted: null, strokesPerCycle: null });
    seal = await make('/api/positions', { skidId: skid.id, parentId: pump.id, kind: 'seal', name: 'P-101 seal' });
    const deeper = await manager.post('/api/positions', { skidId: skid.id, parentId: seal.id, kind: 'other', name: 'Spring' }).expect(400);
    expect(deeper.body.errors[0]).toMatchObject({ pointer: '#/parentId', message: expect.stringContaining('only once') });
    await manager.post('/api/positions', { skidId: skid.id, parentId: NOBODY, kind: 'other', name: 'Spring' }).expect(400);
    await manager.post('/api/positions', { skidId: skid.id, kind: 'feed pump', name: 'P-101' }).expect(409);
    await manager.post('/api/positions', { skidId: skid.id, kind: 'gadget', name: 'P-102' }).expect(400);
    await manager.patch(`/api/positions/${pump.id}`, 1, { parentId: pump.id }).expect(400);
    expect((await manager.get(`/api/positions?skidId=${skid.id}`)).body.items.map((place: Made) => place.name)).toEqual(['P-101', 'P-101 seal']);
  });

  test('items are the storekeeper’s too', async () => {
    item = await make('/api/items', { code: 'SEAL-25', name: 'Seal 25 mm', kind: 'seal' }, storekeeper);
    expect(item).toMatchObject({ unit: 'C62', version: 1 });
    await technician.post('/api/items', { code: 'X', name: 'X', kind: 'seal' }).expect(403);
    await storekeeper.post('/api/items', { code: 'SEAL-25', name: 'Another', kind: 'seal' }).expect(409);
    await storekeeper.post('/api/items', { code: 'X', name: 'X', kind: 'seal', unit: 'piece' }).expect(400);
    item = (await storekeeper.patch(`/api/items/${item.id}`, 1, { note: 'Viton' }).expect(200)).body;
    expect((await technician.get('/api/items?kind=seal&find=viton')).body.items).toEqual([item]);
  });

  const fit = (body: object, position = seal) => technician.post(`/api/positions/${position.id}/fittings`, body);

  test('a part is fitted by its serial number', async () => {
    await toBeJudged();
    const { body } = await fit({ itemId: item.id, serialNumber: 'S-1', at: '2026-01-10T10:00:00Z' }).expect(201);
    expect(body).toMatchObject({
      itemCode: 'SEAL-25',
      serialNumber: 'S-1',
      setCount: 1,
      fittedAt: '2026-01-10T10:00:00.000Z',
      fittedBy: 'A technician',
      removedAt: null,
    });
    expect(await toBeJudged()).toEqual([skid.id]);
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
    const spare = await make('/api/positions', { skidId: skid.id, kind: 'seal', name: 'P-102 seal' });
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
    const housing = await make('/api/positions', { skidId: skid.id, kind: 'pre-filter', name: 'F-1' });
    const cartridge = await make('/api/items', { code: 'C-40', name: 'Cartridge 40 in', kind: 'cartridge' });
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
    const place = await make('/api/positions', { skidId: skid.id, kind: 'seal', name: 'P-103 seal' });
    const answers = await Promise.all(['R-1', 'R-2', 'R-3'].map((serialNumber) => fit({ itemId: item.id, serialNumber }, place)));
    expect(answers.map(({ status }) => status).sort()).toEqual([201, 409, 409]);
    expect((await technician.get(`/api/positions/${place.id}/fittings`)).body.items).toHaveLength(1);
  });

  test('a position ends when it is empty', async () => {
    await end('/api/positions', pump).expect(409); // its seal is still there
    await end('/api/positions', seal).expect(409); // and a part in it
    const fitted = (await manager.get(`/api/positions/${seal.id}`)).body.fitted.fittingId;
    await technician.post(`/api/fittings/${fitted}/removal`, { reason: 'worn out' }).expect(200);
    await end('/api/positions', seal).expect(204);
    await end('/api/positions', pump).expect(204);
    await fit({ itemId: item.id, serialNumber: 'S-5' }).expect(409);
    await manager.patch(`/api/positions/${seal.id}`, 2, { name: 'X' }).expect(400);
  });
});

describe('meters and tanks', () => {
  test('a meter counts one thing of a machine', async () => {
    const blower = await make('/api/positions', { skidId: skid.id, kind: 'blower', name: 'B-1' });
    const meter = await make('/api/meters', { positionId: blower.id, kind: 'run hours', modulus: 100_000 });
    expect(meter).toMatchObject({ skidId: skid.id, positionName: 'B-1', modulus: 100_000, version: 1 });
    await manager.post('/api/meters', { positionId: blower.id, kind: 'run hours' }).expect(409);
    await manager.post('/api/meters', { positionId: NOBODY, kind: 'run hours' }).expect(400);
    await toBeJudged();
    expect((await manager.patch(`/api/meters/${meter.id}`, 1, { modulus: null }).expect(200)).body.modulus).toBeNull();
    expect(await toBeJudged()).toEqual([skid.id]);
    expect((await technician.get(`/api/meters?skidId=${skid.id}`)).body.items).toHaveLength(1);
    expect((await technician.get(`/api/meters?positionId=${NOBODY}`)).body.items).toEqual([]);
  });

  test('a tank has the measures that its shape needs', async () => {
    const tank = { skidId: skid.id, name: 'Hypo', chemical: 'sodium hypochlorite', shape: 'vertical-cylinder', heightM: 1.2, capacityL: 1000 };
    expect(pointersOf((await manager.post('/api/tanks', tank).expect(400)).body)).toEqual(['#/diameterM']);
    const made = await make('/api/tanks', { ...tank, diameterM: 1.05, heelL: 40, strengthGL: 150 });
    expect(made).toMatchObject({ clientId: client.id, diameterM: 1.05, heelL: 40, doseMgL: null, version: 1 });
    expect(pointersOf((await manager.patch(`/api/tanks/${made.id}`, 1, { heelL: 1000 }).expect(400)).body)).toEqual(['#/heelL']);
    await manager.patch(`/api/tanks/${made.id}`, 1, { shape: 'rectangular' }).expect(400);
    expect((await manager.patch(`/api/tanks/${made.id}`, 1, { doseMgL: 0.5 }).expect(200)).body).toEqual({ ...made, doseMgL: 0.5, version: 2 });
    expect((await technician.get(`/api/tanks?skidId=${skid.id}&find=HYPO`)).body.items).toHaveLength(1);
  });
});

describe('records end by date', () => {
  test('from the smallest to the largest, and stay to be read', async () => {
    const owner = await make('/api/clients', { name: 'Brief' });
    const place = await make('/api/sites', { clientId: owner.id, name: 'Here', timeZone: 'UTC' });
    const unit = await make('/api/skids', { siteId: place.id, name: 'UF' });
    await end('/api/clients', owner).expect(409);
    await end('/api/sites', place).expect(409);
    for (const on of ['2026-02-30', '2026-12-24', 'today']) await end('/api/skids', unit, on).expect(400);
    await manager.post(`/api/skids/${unit.id}/end`, { on: '2026-11-01' }).expect(428);
    await end('/api/skids', { ...unit, version: 9 }).expect(412);
    await end('/api/skids', unit, '2026-11-01').expect(204);
    await end('/api/skids', { ...unit, version: 2 }).expect(400);
    expect((await manager.get(`/api/skids/${unit.id}`)).body).toMatchObject({ endedOn: '2026-11-01', version: 2 });
    await manager.post('/api/positions', { skidId: unit.id, kind: 'valve', name: 'V' }).expect(400);
    await end('/api/sites', place).expect(204);
    await manager.post('/api/skids', { siteId: place.id, name: 'UF 2' }).expect(400);
    await end('/api/clients', owner).expect(204);
    await manager.post('/api/sites', { clientId: owner.id, name: 'There', timeZone: 'UTC' }).expect(400);
    expect((await manager.get('/api/clients?find=Brief')).body.items).toEqual([]);
    expect((await manager.get('/api/clients?find=Brief&ended=true')).body.items).toMatchObject([{ id: owner.id, endedOn: '2026-11-25' }]);
  });
});
