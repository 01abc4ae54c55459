import { randomUUID } from 'node:crypto';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let technician: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  technician = await signInAs(app, 'technician');
  [skid] = (await makeSkids(app, 'Fir', 1, 'Europe/Berlin')) as [SmallSkid];
});
afterAll(() => app?.close());

const send = (text: string | Buffer, query: string, { dryRun = false, status = 200 } = {}) =>
  technician
    .call('post', `/api/skids/${skid.id}/loads${dryRun ? '/dry-run' : ''}?${query}`)
    .attach('file', Buffer.from(text), 'log.csv')
    .expect(status);
const storedCycles = () => app.get(Database).prisma.cycle.findMany({ where: { skidNo: skid.no }, orderBy: { startedAt: 'asc' } });
const counts = ({ body }: { body: Record<string, number> }) => ({
  kept: body.kept,
  known: body.known,
  differing: body.differing,
  replaced: body.replaced,
  refused: body.refused,
});

const CYCLES = `started_at,ended_at,filtration_minutes,filtrate_m3,flow_m3h,feed_kpa,filtrate_kpa,temperature_c
2026-11-01T00:00:00Z,2026-11-01T00:32:00Z,30,18,36,150,100,12
2026-11-01T00:35:00Z,2026-11-01T01:07:00Z,30,18,36,151,100,12
`;

describe('a file of cycles', () => {
  test('is first tried: every problem by line, column and value, the first rows as understood, and nothing written', async () => {
    const bad = `${CYCLES}2026-11-01T02:00:00Z,2026-11-01T01:00:00Z,30,18,36,150,100,12\n2026-11-01T03:00:00Z,,30,18,36,oops,100,12\nyesterday,,30,18,36,150,100,12\n`;
    const { body } = await send(bad, 'kind=cycles', { dryRun: true });
    expect(body).toMatchObject({ id: null, rows: 5, kept: 2, refused: 3 });
    expect(body.problems.map(({ line, column, value }: { line: number; column: string; value: string }) => [line, column, value])).toEqual([
      [4, 'ended_at', '2026-11-01T01:00:00Z'],
      [5, 'feed_kpa', 'oops'],
      [6, 'started_at', 'yesterday'],
    ]);
    expect(body.preview[0].fields).toContainEqual({ name: 'feed_kpa', value: '150', unit: 'kPa' });
    expect(await storedCycles()).toEqual([]);
  });

  test('is loaded once, however often it is sent, plain or packed', async () => {
    expect(counts(await send(CYCLES, 'kind=cycles'))).toEqual({ kept: 2, known: 0, differing: 0, replaced: 0, refused: 0 });
    expect(counts(await send(CYCLES, 'kind=cycles'))).toEqual({ kept: 0, known: 2, differing: 0, replaced: 0, refused: 0 });
    expect(counts(await send(gzipSync(CYCLES), 'kind=cycles'))).toEqual({ kept: 0, known: 2, differing: 0, replaced: 0, refused: 0 });
    expect(await storedCycles()).toHaveLength(2);
  });

  test('adds only what is new, late rows too; a broken row loses no good one', async () => {
    const late = `${CYCLES}2026-10-30T00:00:00Z,2026-10-30T00:32:00Z,30,18,36,149,100,12\n"2026-10-31T00:00:00Z,broken\n2026-10-31T00:00:00Z,2026-10-31T00:32:00Z,30,18,36,149,100,12\n`;
    expect(counts(await send(late, 'kind=cycles'))).toEqual({ kept: 2, known: 2, differing: 0, replaced: 0, refused: 1 });
  });

  test('with another value for a known cycle says so, and replaces it only when asked, keeping the earlier one', async () => {
    const other = CYCLES.replace('150,100,12', '160,100,12');
    const report = await send(other, 'kind=cycles');
    expect(counts(report)).toEqual({ kept: 0, known: 1, differing: 1, replaced: 0, refused: 0 });
    expect(report.body.problems[0]).toMatchObject({ kind: 'differing', line: 2, value: expect.stringContaining('160') });
    expect((await storedCycles()).some(({ feedKpa }) => feedKpa === 160)).toBe(false);
    expect(counts(await send(other, 'kind=cycles&replaceDiffering=true'))).toMatchObject({ differing: 1, replaced: 1 });
    expect((await storedCycles()).some(({ feedKpa }) => feedKpa === 160)).toBe(true);
    const [kept] = await app.get(Database).prisma.replacedRecord.findMany({ where: { skidId: skid.id } });
    expect(kept?.record).toMatchObject({ feedKpa: 150 });
  });

  test('stands in the book of loads with its hash and its problems', async () => {
    const { body } = await technician.get(`/api/skids/${skid.id}/loads`).expect(200);
    expect(body.items[0]).toMatchObject({ kind: 'cycles', name: 'log.csv', by: 'A technician' });
    const detail = (await technician.get(`/api/loads/${body.items[0].id}`).expect(200)).body;
    expect(detail.sha256).toMatch(/^[0-9a-f]{64}$/);
  });
});

describe('a profile', () => {
  const definition = {
    delimiter: ';',
    decimal: ',',
    timeColumn: 'Zeit',
    timeFormat: 'dd.MM.yyyy HH:mm:ss',
    columns: [
      { column: 'Betrieb', as: 'mode', unit: 'state' },
      { column: 'Durchfluss [l/min]', as: 'filtrate_flow', unit: 'L/min' },
      { column: 'p Zulauf', as: 'feed_pressure', unit: 'bar' },
      { column: 'p Filtrat', as: 'filtrate_pressure', unit: 'bar' },
    ],
    words: { Filtration: '1', Spülung: '2' },
    missingValues: ['---'],
    segmentation: { filtrationModes: [1], filtrationFlowShare: 0.8, maxGapMinutes: 10 },
  };
  let profileId: string;

  test('is checked for meaning before it is kept', async () => {
    const make = (change: object) =>
      technician.post('/api/log-profiles', { skidId: skid.id, name: 'PLC', kind: 'samples', definition: { ...definition, ...change } });
    const faults: [object, string][] = [
      [{ timeZone: 'Mars/Olympus' }, '#/definition/timeZone'],
      [{ timeFormat: 'HH:mm' }, '#/definition/timeFormat'],
      [{ columns: [{ column: 'T', as: 'temperature', unit: 'bar' }] }, '#/definition/columns/0/unit'],
      [{ columns: [{ column: 'T', as: 'colour', unit: 'bar' }] }, '#/definition/columns/0/as'],
      [{ delimiter: ',', decimal: ',' }, '#/definition/decimal'],
      [{ encoding: 'ebcdic' }, '#/definition/encoding'],
    ];
    for (const [change, pointer] of faults) {
      const { body } = await make(change)
        .expect(400)
        .expect('content-type', /problem\+json/);
      expect(body.errors.map((error: { pointer: string }) => error.pointer)).toContain(pointer);
    }
    profileId = (await make({}).expect(201)).body.id;
    expect((await technician.get(`/api/log-profiles?skidId=${skid.id}`).expect(200)).body.items).toHaveLength(1);
    const { body } = await technician.get(`/api/log-profiles/${profileId}`).expect(200).expect('etag', '"1"');
    expect(body.definition.columns[1]).toMatchObject({ as: 'filtrate_flow', unit: 'L/min', positionId: null });
    await technician.patch(`/api/log-profiles/${profileId}`, 1, { name: 'PLC export', definition }).expect(200);
    await technician.patch(`/api/log-profiles/${profileId}`, 1, { name: 'PLC export', definition }).expect(412);
  });

  const row = (minute: number, day: string, mode: string, flow: string, feed = '1,50') =>
    `${day} ${String(10 + Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}:00;${mode};${flow};${feed};1,00`;
  const log = (day: string) => {
    const rows = Array.from({ length: 66 }, (_, minute) => (minute % 33 < 30 ? row(minute, day, 'Filtration', '600,0') : row(minute, day, 'Spülung', '0')));
    return `\uFEFFZeit;Betrieb;Durchfluss [l/min];p Zulauf;p Filtrat\r\n${rows.join('\r\n')}\r\n`;
  };

  test('reads an export with its own names, units, words, decimal commas and line ends, and its samples become cycles', async () => {
    const report = await send(log('10.11.2026'), `kind=samples&profileId=${profileId}`);
    expect(counts(report)).toEqual({ kept: 66 * 4, known: 0, differing: 0, replaced: 0, refused: 0 });
    const cycles = (await storedCycles()).filter(({ derived }) => derived);
    expect(cycles.map(({ startedAt, filtrationMinutes, flowM3h, feedKpa }) => [startedAt.toISOString(), filtrationMinutes, flowM3h, feedKpa])).toEqual([
      ['2026-11-10T09:00:00.000Z', 30, 36, 150],
      ['2026-11-10T09:33:00.000Z', 30, 36, 150],
    ]);
    expect(counts(await send(log('10.11.2026'), `kind=samples&profileId=${profileId}`))).toMatchObject({ kept: 0, known: 66 * 4 });
    expect((await storedCycles()).filter(({ derived }) => derived)).toHaveLength(2);
  });

  test('refuses cells and not rows, and leaves out what stands for no value', async () => {
    const text = `Zeit;Betrieb;Durchfluss [l/min];p Zulauf;p Filtrat\n${row(0, '11.11.2026', 'Filtration', '---')}\n${row(1, '11.11.2026', 'Pause', '600', '99999')}\n`;
    const { body } = await send(text, `kind=samples&profileId=${profileId}`);
    expect(body).toMatchObject({ rows: 2, kept: 5, refused: 2 });
    expect(body.problems).toEqual([
      expect.objectContaining({ kind: 'refused', line: 3, column: 'Betrieb', value: 'Pause' }),
      expect.objectContaining({ kind: 'refused', line: 3, column: 'p Zulauf', value: '99999' }),
    ]);
  });

  test('resolves the doubled hour by the order of the rows and refuses an hour that does not exist', async () => {
    const times = ['25.10.2026 02:30:00', '25.10.2026 02:45:00', '25.10.2026 02:15:00', '25.10.2026 03:00:00', '29.03.2026 02:30:00'];
    const text = `Zeit;Betrieb;Durchfluss [l/min];p Zulauf;p Filtrat\n${times.map((time) => `${time};1;600;1,5;1`).join('\n')}\n`;
    const { body } = await send(text, `kind=samples&profileId=${profileId}`);
    expect(body).toMatchObject({ kept: 16, refused: 1, doubtful: 0 });
    expect(body.problems).toContainEqual(expect.objectContaining({ kind: 'refused', line: 6, value: '29.03.2026 02:30:00' }));
  });

  test('of another kind of file is refused', async () => {
    const { body } = await send(CYCLES, `kind=cycles&profileId=${profileId}`, { status: 400 });
    expect(body.errors[0].pointer).toBe('profileId');
  });
});

describe('a file of events', () => {
  test('brings cleans, and refuses by line what the skid does not have', async () => {
    const text =
      'at,event,chemical,strength_mg_l,contact_minutes,tank,level_m\n2026-11-02T08:00:00,CIP,citric acid,20000,120,,\n2026-11-02T09:00:00,dip,,,,No such tank,0.5\n';
    const { body } = await send(text, 'kind=events');
    expect(body).toMatchObject({ kept: 1, refused: 1 });
    expect(body.problems[0]).toMatchObject({ line: 3, column: 'tank', value: 'No such tank' });
    const log = (await technician.get(`/api/skids/${skid.id}/service-log`).expect(200)).body;
    expect(JSON.stringify(log.items)).toContain('citric acid');
  });
});

describe('a file that is none', () => {
  test.each([
    ['an empty file', '', 422],
    ['a header without the columns', 'a,b,c\n1,2,3\n', 422],
    ['a header with a column twice', 'started_at,flow_m3h,flow_m3h\n2026-11-01T00:00:00Z,1,2\n', 422],
    ['a zip archive', Buffer.from([0x50, 0x4b, 3, 4, 0, 0]), 422],
    ['a gzip that ends early', gzipSync(CYCLES.repeat(50)).subarray(0, 60), 422],
  ])('such as %s is refused with the reason, and changes nothing', async (_, content, status) => {
    const before = await storedCycles();
    const { body } = await send(content, 'kind=cycles', { status }).expect('content-type', /problem\+json/);
    expect(body.title.length).toBeGreaterThan(10);
    expect(await storedCycles()).toEqual(before);
  });

  test.each([
    ['no kind', ''],
    ['an unknown kind', 'kind=colours'],
    ['a profile that is no id', 'kind=cycles&profileId=1'],
    ['an unknown question', 'kind=cycles&colour=red'],
  ])('and a request with %s is refused', async (_, query) => {
    await send(CYCLES, query, { status: 400 });
  });

  test('and a body that is no form, or a form without a file, is refused', async () => {
    await technician.post(`/api/skids/${skid.id}/loads?kind=cycles`, { file: 'x' }).expect(400);
    await technician.call('post', `/api/skids/${skid.id}/loads?kind=cycles`).field('name', 'x').expect(400);
  });
});

describe('a gateway', () => {
  const rows = [{ started_at: '2026-11-20T00:00:00Z', filtration_minutes: 30, flow_m3h: 36, feed_kpa: 152, filtrate_kpa: 100, temperature_c: 11.5 }];

  test('sends batches for the skids of its site with its key, and a key of the request counts once', async () => {
    const manager = await signInAs(app, 'manager');
    const { key } = (await manager.post('/api/gateway-keys', { siteId: skid.siteId, name: 'Cabinet 1' }).expect(201)).body;
    const post = (body: object, idempotencyKey?: string) => {
      const call = technician.call('post', '/api/gateway/batches').unset('cookie').set('authorization', `Bearer ${key}`);
      return (idempotencyKey === undefined ? call : call.set('idempotency-key', idempotencyKey)).send(body);
    };
    const once = randomUUID();
    const batch = { skidId: skid.id, kind: 'cycles', rows };
    const first = await post(batch, once).expect(200);
    expect(first.body).toMatchObject({ kept: 1, refused: 0 });
    expect((await post(batch, once).expect(200)).body).toEqual(first.body);
    expect((await post(batch).expect(200)).body).toMatchObject({ kept: 0, known: 1 });
    await post({ ...batch, rows: [{ ...rows[0], flow_m3h: 37 }] }, once).expect(422);
    const [other] = (await makeSkids(app, 'Gorse', 1)) as [SmallSkid];
    expect([403, 404]).toContain((await post({ ...batch, skidId: other.id })).status);
    await post({ ...batch, rows: [] }).expect(400);
    await post({ ...batch, rows: 'many' }).expect(400);
    await post({ ...batch, colour: 'red' }).expect(400);
    await technician.call('post', '/api/gateway/batches').unset('cookie').set('authorization', 'Bearer nonsense').send(batch).expect(401);
  });

  test('is the only one who may', async () => {
    await technician.post('/api/gateway/batches', { skidId: skid.id, kind: 'cycles', rows }).expect(403);
  });
});

test('a client loads no file', async () => {
  const client = await signInAs(app, 'client', { clientId: skid.clientId, mayEnterReadings: true });
  await client.call('post', `/api/skids/${skid.id}/loads?kind=cycles`).attach('file', Buffer.from(CYCLES), 'log.csv').expect(403);
});
