import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { makePlant, type Plant, signedIn } from '../support/plant.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let plant: Plant;
let technician: Api;

beforeAll(async () => {
  app = await startTestApp();
  plant = await makePlant(app, 'Sedge Water');
  technician = await signedIn(app, 'technician');
});
afterAll(() => app?.close());

/** How many rows all tables of facts hold. */
async function facts(): Promise<number> {
  const tables = [
    'sample',
    'cycle',
    'clean',
    'meter_reading',
    'hand_reading',
    'hand_value',
    'service_entry',
    'tank_dip',
    'tank_delivery',
    'load',
    'log_profile',
  ];
  const { rows } = await app.get(Database).pool.query(`SELECT ${tables.map((table) => `(SELECT count(*) FROM ${table})`).join(' + ')} AS count`);
  return Number(rows[0].count);
}

const definition = { columns: [{ column: 'TMP', as: 'tmp', unit: 'kPa' }] };
const profile = (change: object) => ({ skidId: plant.skidId, name: 'x', kind: 'samples', definition, ...change });
const hand = (reading: unknown) => ({ readings: [reading] });
const good = { at: '2026-05-04T08:00', values: [{ signal: 'tmp', value: 50, unit: 'kPa' }] };

describe('bodies that are wrong', () => {
  test.each<[string, string, () => unknown]>([
    ['hand readings of nothing', 'hand', () => ({ readings: [null] })],
    ['hand readings that are text', 'hand', () => ({ readings: ['x'] })],
    ['hand readings that are a list', 'hand', () => ({ readings: [[]] })],
    ['values that hold a list', 'hand', () => hand({ ...good, values: [[]] })],
    ['a definition that is a list', 'profile', () => profile({ definition: [] })],
    ['columns that hold a list', 'profile', () => profile({ definition: { columns: [[]] } })],
    ['gates that are a list', 'profile', () => profile({ definition: { ...definition, gates: [] } })],
    ['pasted columns that hold a list', 'paste', () => ({ text: 'x', columns: [[], []] })],
    ['hand readings that are an object', 'hand', () => ({ readings: {} })],
    ['no values', 'hand', () => hand({ ...good, values: null })],
    ['a value that is null', 'hand', () => hand({ ...good, values: [null] })],
    ['a meter that is null', 'hand', () => hand({ ...good, meters: [null] })],
    ['a tank that is null', 'hand', () => hand({ ...good, tanks: [null] })],
    ['a number as text', 'hand', () => hand({ ...good, values: [{ signal: 'tmp', value: '50', unit: 'kPa' }] })],
    ['an unknown unit', 'hand', () => hand({ ...good, values: [{ signal: 'tmp', value: 50, unit: 'atm' }] })],
    ['a unit of another dimension', 'hand', () => hand({ ...good, values: [{ signal: 'tmp', value: 50, unit: 'Cel' }] })],
    ['an unknown signal', 'hand', () => hand({ ...good, values: [{ signal: 'constructor', value: 50, unit: 'kPa' }] })],
    ['an unknown field', 'hand', () => hand({ ...good, colour: 'red' })],
    ['a day that is none', 'hand', () => hand({ ...good, at: '2026-02-30T08:00' })],
    ['a year far away', 'hand', () => hand({ ...good, at: '9999-12-31T23:59' })],
    ['no reading at all', 'hand', () => hand({ at: good.at })],
    ['text with U+0000', 'hand', () => hand({ ...good, note: 'a\0b' })],
    ['a body that is a list', 'hand', () => [good]],
    ['a body that is nothing', 'hand', () => ({})],
    ['pasted columns that are nothing', 'paste', () => ({ text: 'x', columns: [null, null] })],
    ['pasted text that is a number', 'paste', () => ({ text: 5, columns: [{ as: 'time' }, { as: 'tmp', unit: 'kPa' }] })],
    ['a definition that is nothing', 'profile', () => profile({ definition: null })],
    ['a definition that is text', 'profile', () => profile({ definition: 'x' })],
    ['gates that are nothing', 'profile', () => profile({ definition: { ...definition, gates: null } })],
    ['segmentation that is nothing', 'profile', () => profile({ definition: { ...definition, segmentation: null } })],
    ['a column that is nothing', 'profile', () => profile({ definition: { columns: [null] } })],
    ['columns that are text', 'profile', () => profile({ definition: { columns: 'x' } })],
    ['words for numbers', 'profile', () => profile({ definition: { ...definition, words: { a: 1 } } })],
    ['words that are a list', 'profile', () => profile({ definition: { ...definition, words: ['a'] } })],
    ['words with U+0000', 'profile', () => profile({ definition: { ...definition, words: { 'a\0': 'b' } } })],
    ['a name with U+0000', 'profile', () => profile({ name: 'a\0b' })],
    ['a column with U+0000', 'profile', () => profile({ definition: { columns: [{ column: 'T\0', as: 'tmp', unit: 'kPa' }] } })],
    ['a time column with U+0000', 'profile', () => profile({ definition: { ...definition, timeColumn: 'a\0b' } })],
    ['a zone with SQL in it', 'profile', () => profile({ definition: { ...definition, timeZone: "UTC'; DROP TABLE load;--" } })],
    ['a modes list of nothing', 'profile', () => profile({ definition: { ...definition, segmentation: { filtrationModes: [null] } } })],
  ])('%s', async (_, where, body) => {
    const paths = { hand: 'hand-readings', paste: 'hand-readings/paste' } as Record<string, string>;
    const path = where === 'profile' ? '/api/log-profiles' : `/api/skids/${plant.skidId}/${paths[where]}`;
    const before = await facts();
    const answer = await technician.post(path, body() as object);
    expect([answer.status, JSON.stringify(answer.body).slice(0, 200)]).toEqual([400, expect.anything()]);
    expect(answer.get('content-type')).toMatch(/application\/problem\+json/);
    expect(await facts()).toBe(before);
  });

  test('JSON that is none, a type that is none, and a body that is huge', async () => {
    const path = `/api/skids/${plant.skidId}/hand-readings`;
    const raw = (type: string, text: string) => technician.call('post', path).set('content-type', type).send(text);
    await raw('application/json', '{"readings": [')
      .expect(400)
      .expect('content-type', /problem\+json/);
    await raw('application/json', '')
      .expect(400)
      .expect('content-type', /problem\+json/);
    await raw('application/xml', '<a/>')
      .expect(415)
      .expect('content-type', /problem\+json/);
    await raw('application/json', JSON.stringify({ readings: [{ ...good, note: 'x'.repeat(5_000_000) }] }))
      .expect(413)
      .expect('content-type', /problem\+json/);
  });

  test.each(['bm9uZQ', 'WyJ4Il0', 'WzFd', 'WzFlMzBd', 'WyIyMDI2LTAxLTAxIiwgIngiXQ', '%00', "';--"])('a cursor that no list gave: %s', async (cursor) => {
    for (const list of ['loads', 'service-log']) {
      expect((await technician.get(`/api/skids/${plant.skidId}/${list}?cursor=${cursor}`)).status).toBeLessThan(500);
    }
    expect((await technician.get(`/api/log-profiles?skidId=${plant.skidId}&cursor=${cursor}`)).status).toBeLessThan(500);
  });

  test.each(['%00', '%25', "';--", '%5C', '_'.repeat(100)])('words to find: %s', async (find) => {
    for (const list of ['loads', 'service-log']) {
      expect((await technician.get(`/api/skids/${plant.skidId}/${list}?find=${find}`)).status).toBeLessThan(500);
    }
  });
});

describe('files with odd text', () => {
  const send = (kind: string, text: string | Buffer, name = 'log.csv', query = '') =>
    technician.call('post', `/api/skids/${plant.skidId}/loads?kind=${kind}${query}`).attach('file', Buffer.from(text), name);

  test.each([
    ['SQL and HTML in a cell', 'at,event,task\n2026-05-04T08:00,service,"Robert\'); DROP TABLE load;-- <b>x</b>"\n'],
    ['U+0000 in a cell', 'at,event,task\n2026-05-04T08:00,service,a\0b\n'],
    ['half a surrogate pair', Buffer.from('at,event,task\n2026-05-04T08:00,service,\xed\xa0\x80\n', 'latin1')],
    ['no line end', 'at,event,task'],
    ['one line of a megabyte', `at,event,task\n${'x'.repeat(1_000_000)}\n`],
    ['old line ends', 'at,event,task\r2026-05-04T08:00,service,x\r'],
    ['binary', Buffer.from(Array.from({ length: 5000 }, (_, i) => (i * 7919) % 256))],
    ['only a byte-order mark', '\uFEFF'],
    ['only line ends', '\n\n\n\n'],
    ['a header alone', 'at,event,task\n'],
    ['quotes everywhere', `at,event,task\n${'"'.repeat(999)}\n2026-05-04T09:00,service,y\n`],
    ['numbers that are none', 'at,event,tank,level_m\n2026-05-04T08:00,dip,Hypochlorite,1e999\n2026-05-04T08:01,dip,Hypochlorite,NaN\n'],
    ['a name like a property', 'at,event,__proto__,constructor\n2026-05-04T08:00,service,x,y\n'],
  ])('%s', async (_, text) => {
    for (const kind of ['events', 'samples', 'cycles']) {
      const { status, body } = await send(kind, text);
      expect([status < 500, JSON.stringify(body).slice(0, 300)]).toEqual([true, expect.anything()]);
    }
  });

  test.each(['', 'a\0b.csv', 'Überlauf 漢字.csv', '../../etc/passwd', '<script>.csv', 'x'.repeat(3000)])('a file name such as %j', async (name) => {
    const { status, body } = await send('events', 'at,event,task\n2026-05-04T08:00,service,x\n', name);
    expect([status < 500, JSON.stringify(body).slice(0, 300)]).toEqual([true, expect.anything()]);
  });

  test('more than one file, and a file in a field of another name', async () => {
    const path = `/api/skids/${plant.skidId}/loads?kind=events`;
    const text = Buffer.from('at,event,task\n2026-05-04T08:00,service,x\n');
    expect((await technician.call('post', path).attach('file', text, 'a.csv').attach('file', text, 'b.csv')).status).toBeLessThan(500);
    expect((await technician.call('post', path).attach('other', text, 'a.csv')).status).toBeLessThan(500);
    expect((await technician.call('post', path).set('content-type', 'multipart/form-data').send('nonsense')).status).toBeLessThan(500);
    expect((await technician.call('post', path).set('content-type', 'multipart/form-data; boundary=x').send('--x\r\nnonsense')).status).toBeLessThan(500);
    const cut = '--x\r\ncontent-disposition: form-data; name="file"; filename="a.csv"\r\n\r\nat,event,task\n2026-05-04T10:00,service,x\n';
    expect((await technician.call('post', path).set('content-type', 'multipart/form-data; boundary=x').send(cut)).status).toBeLessThan(500);
    const { rows } = await app.get(Database).pool.query(`SELECT 1 FROM service_entry WHERE at = '2026-05-04T08:00Z'`);
    expect(rows).toEqual([]);
  });

  test('a long upload whose header is wrong gets its answer at once, and the next request too', async () => {
    const { status, body } = await send('events', `colour\n${'red\n'.repeat(8_000_000)}`);
    expect([status, body.code]).toEqual([422, 'intake/unreadable-file']);
    await technician.get(`/api/skids/${plant.skidId}/loads`).expect(200);
  });
});
