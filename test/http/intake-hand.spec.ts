import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import { IntakeFacts } from '../../src/intake/index.js';
import type { Api } from '../support/api.js';
import { makePlant, type Plant, signedIn } from '../support/plant.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let plant: Plant;
let technician: Api;
let path: string;

beforeAll(async () => {
  app = await startTestApp();
  plant = await makePlant(app, 'Reed Water');
  technician = await signedIn(app, 'technician');
  path = `/api/skids/${plant.skidId}/hand-readings`;
});
afterAll(() => app?.close());

const rowsIn = async (table: string) => Number((await app.get(Database).pool.query(`SELECT count(*) FROM ${table}`)).rows[0].count);
const reading = (at: string, bar: number, more: object = {}) => ({
  at,
  minutesSinceBackwash: 20,
  values: [
    { signal: 'feed_pressure', value: bar, unit: 'bar', smallestDivision: 0.05 },
    { signal: 'filtrate_pressure', value: 0.6, unit: 'bar' },
    { signal: 'temperature', value: 12.5, unit: 'Cel' },
  ],
  meters: [{ meterId: plant.meterId, value: 1200 }],
  tanks: [{ tankId: plant.tankId, levelCm: 80 }],
  ...more,
});

describe('readings by hand', () => {
  test('a dry run says how they would be read and writes nothing', async () => {
    const { body } = await technician.post(path, { readings: [reading('2026-05-04T08:00', 1.5)], dryRun: true }).expect(200);
    expect(body).toMatchObject({ id: null, kind: 'hand', rows: 1, kept: 5, known: 0, refused: 0 });
    expect(body.preview[0]).toMatchObject({ line: 1, at: '2026-05-04T06:00:00.000Z' });
    for (const table of ['hand_reading', 'hand_value', 'meter_reading', 'tank_dip', 'load']) expect(await rowsIn(table)).toBe(0);
  });

  test('are kept with who read them and the error of each gauge', async () => {
    const { body } = await technician.post(path, { readings: [reading('2026-05-04T08:00', 1.5, { readBy: 'Inge Ø.' })] }).expect(200);
    expect(body).toMatchObject({ kept: 5, known: 0, differing: 0, refused: 0 });
    const { rows } = await app
      .get(Database)
      .pool.query('SELECT r.read_by, r.at, v.* FROM hand_value v JOIN hand_reading r ON r.id = v.hand_reading_id ORDER BY signal');
    expect(rows[0]).toMatchObject({ read_by: 'Inge Ø.', signal: 'feed_pressure', value: 150, entered: 1.5, entered_unit: 'bar', reading_error: 2.5 });
    expect(rows[1]).toMatchObject({ signal: 'filtrate_pressure', value: 60, reading_error: 5 });
    expect(await app.get(IntakeFacts).lastReadingAt({ id: plant.skidId, no: 1 })).toEqual(new Date('2026-05-04T06:00:00Z'));
  });

  test('entered again change nothing; another value is reported, and replaces only when asked', async () => {
    const again = await technician.post(path, { readings: [reading('2026-05-04T08:00', 1.5)] }).expect(200);
    expect(again.body).toMatchObject({ kept: 0, known: 5, differing: 0 });
    const other = await technician.post(path, { readings: [reading('2026-05-04T08:00', 1.7)] }).expect(200);
    expect(other.body).toMatchObject({ kept: 0, known: 4, differing: 1, replaced: 0 });
    expect(other.body.problems[0]).toMatchObject({ kind: 'differing', line: 1, column: 'value', message: 'differs from what is stored' });
    const [before] = await app.get(IntakeFacts).handReadingsOf(plant.skidId);
    expect(before?.values.feed_pressure).toEqual({ value: 150, error: 2.5 });
    await technician.post(path, { readings: [reading('2026-05-04T08:00', 1.7)], replaceDiffering: true }).expect(200);
    const [after] = await app.get(IntakeFacts).handReadingsOf(plant.skidId);
    expect(after).toMatchObject({ values: { feed_pressure: { value: 170 } }, feedPumpHours: 1200, minutesSinceBackwash: 20 });
    const { rows } = await app.get(Database).pool.query('SELECT kind, record FROM replaced_record');
    expect(rows).toMatchObject([{ kind: 'hand_value', record: { value: 150, enteredUnit: 'bar' } }]);
  });

  test('one that cannot be so refuses all, with a pointer to each fault', async () => {
    const loads = await rowsIn('load');
    const { body } = await technician
      .post(path, { readings: [reading('2026-05-11T08:00', 1.5), reading('2026-02-30T08:00', 150)] })
      .expect(400)
      .expect('content-type', /application\/problem\+json/);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual(['#/readings/1/at', '#/readings/1/values/0']);
    expect(await rowsIn('load')).toBe(loads);
  });

  test('the same request with the same key is carried out once', async () => {
    const key = '5d2b7c8e-1111-4222-8333-444455556666';
    const send = (bar: number) => technician.post(path, { readings: [reading('2026-05-18T08:00', bar)] }).set('idempotency-key', key);
    const first = await send(1.5).expect(200);
    const second = await send(1.5).expect(200);
    expect(second.body).toEqual(first.body);
    await send(1.6).expect(422);
    await technician
      .post(path, { readings: [reading('2026-05-18T08:00', 1.5)] })
      .set('idempotency-key', 'once')
      .expect(400);
  });
});

describe('a back-log', () => {
  const columns = () => [
    { as: 'time' },
    { as: 'minutes since backwash' },
    { as: 'feed_pressure', unit: 'bar' },
    { as: `meter ${plant.meterId}` },
    { as: 'note' },
  ];
  const week = (n: number) => new Date(Date.UTC(2025, 0, 6 + 7 * n)).toISOString().slice(0, 10);

  test('of 52 weekly rows is pasted at once; a broken row loses no good one', async () => {
    const rows = Array.from({ length: 52 }, (_, n) => `${week(n)} 08:00\t15\t${(1.2 + n / 100).toFixed(2).replace('.', ',')}\t${n * 100}\t`);
    rows[7] = `${week(7)} 08:00\t15\tabc\t700\t`;
    rows[9] = '2025-03-30 02:30\t15\t1,3\t900\t';
    const body = { text: `when\tmin\tbar\th\tnote\n${rows.join('\r\n')}`, columns: columns(), decimal: ',', headerLines: 1, readBy: 'Old sheet' };
    const answer = await technician.post(`${path}/paste`, body).expect(200);
    expect(answer.body).toMatchObject({ rows: 52, kept: 100, refused: 2 });
    expect(answer.body.problems).toEqual([
      { kind: 'refused', line: 9, column: 'column 3', value: 'abc', message: 'is not a number' },
      { kind: 'refused', line: 11, column: 'at', value: '2025-03-30 02:30', message: 'lies in the hour that the start of summer time leaves out' },
    ]);
    const again = await technician.post(`${path}/paste`, body).expect(200);
    expect(again.body).toMatchObject({ kept: 0, known: 100, refused: 2 });
  });

  test('with columns that say nothing is refused whole', async () => {
    const { body } = await technician.post(`${path}/paste`, { text: 'a\tb', columns: [{ as: 'time' }, { as: 'pressure' }] }).expect(400);
    expect(body.errors).toEqual([{ pointer: '#/columns/1/as', message: 'pressure is no column that is known' }]);
  });
});

describe('who may enter readings', () => {
  test('an operator of the client at the own site, and nobody else of the client', async () => {
    const { clientId, siteId } = plant;
    const operator = await signedIn(app, 'client', { clientId, siteId, mayEnterReadings: true });
    await operator.post(path, { readings: [reading('2026-06-01T08:00', 1.5)] }).expect(200);
    const anySite = await signedIn(app, 'client', { clientId, mayEnterReadings: true });
    await anySite.post(path, { readings: [reading('2026-06-08T08:00', 1.5)] }).expect(200);
    const reader = await signedIn(app, 'client', { clientId, siteId });
    await reader.post(path, { readings: [reading('2026-06-15T08:00', 1.5)] }).expect(403);
    const other = await makePlant(app, 'Other Works');
    const stranger = await signedIn(app, 'client', { clientId: other.clientId, siteId: other.siteId, mayEnterReadings: true });
    await stranger.post(path, { readings: [reading('2026-06-15T08:00', 1.5)] }).expect(404);
    await stranger.get(`/api/skids/${plant.skidId}/hand-sheet`).expect(404);
    const storekeeper = await signedIn(app, 'storekeeper');
    await storekeeper.post(path, { readings: [reading('2026-06-15T08:00', 1.5)] }).expect(403);
  });
});

describe('the sheet', () => {
  test('lists what this skid was read for, with the last values', async () => {
    const operator = await signedIn(app, 'client', { clientId: plant.clientId });
    const { body } = await operator.get(`/api/skids/${plant.skidId}/hand-sheet`).expect(200);
    expect(body.gauges.map(({ signal, unit }: { signal: string; unit: string }) => `${signal} ${unit}`)).toEqual([
      'feed_pressure bar',
      'filtrate_pressure bar',
      'temperature Cel',
    ]);
    expect(body.gauges[0]).toMatchObject({ label: 'Feed pressure', smallestDivision: 0.05, lastValue: 1.5, lastAt: '2026-06-08T06:00:00.000Z' });
    expect(body.meters).toMatchObject([{ meterId: plant.meterId, label: 'Feed pump 1: run hours', lastValue: 1200 }]);
    expect(body.tanks).toMatchObject([{ tankId: plant.tankId, lastLevelM: 0.8 }]);
  });

  test('of a skid that nobody has read lists what its flow scheme needs', async () => {
    const fresh = await makePlant(app, 'Fresh Works');
    const { body } = await technician.get(`/api/skids/${fresh.skidId}/hand-sheet`).expect(200);
    expect(body.gauges.map(({ signal }: { signal: string }) => signal)).toEqual([
      'feed_pressure',
      'filtrate_pressure',
      'filtrate_flow',
      'filtrate_total',
      'temperature',
      'backwash_count',
    ]);
  });
});
