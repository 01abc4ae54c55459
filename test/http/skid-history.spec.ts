import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { makeRecords } from '../support/records-of-client.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

let app: NestFastifyApplication;
let manager: Api;
let client: Api;
let skid: SmallSkid;
let other: SmallSkid;

interface Entry {
  readonly id: string;
  readonly kind: string;
  readonly event: string;
  readonly what: string;
  readonly at: string;
}
const prisma = () => app.get(Database).prisma;
const read = async (query = '', by: Api = client) =>
  (await by.get(`/api/skids/${skid.id}/history${query}`).expect(200)).body as { items: Entry[]; next: string | null; total: number };
const whats = async (query: string) => (await read(query)).items.map(({ what }) => what);

beforeAll(async () => {
  app = await startTestApp();
  [skid] = (await makeSkids(app, 'Alder', 1, 'Pacific/Auckland')) as [SmallSkid];
  [other] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  client = await signInAs(app, 'client', { clientId: skid.clientId });
  const item = await prisma().item.create({ data: { code: 'I-1', name: 'Seal', kind: 'seal' } });
  await makeRecords(app, skid, 'Alder', item.id);
  await makeRecords(app, other, 'Birch', item.id);
  const { id: skidId, clientId, siteId } = skid;
  const { no: loadNo } = await prisma().load.create({ data: { skidId, clientId, kind: 'events', name: 'old.csv', sha256: '', by: 'Jo' } });
  const clean = { skidId, clientId, loadNo, kind: 'CIP', chemical: 'citric acid', strengthMgL: 20_000, contactMinutes: 90 };
  // By the clocks at the site the first lies on 9 October, the second at the first moment of the 10th.
  await prisma().clean.create({ data: { ...clean, at: new Date('2026-10-09T10:59:59Z'), note: 'evening' } });
  await prisma().clean.create({ data: { ...clean, at: new Date('2026-10-09T11:00:00Z'), note: 'midnight' } });
  await prisma().serviceEntry.create({ data: { skidId, clientId, loadNo, task: 'Grease the bearings', at: new Date('2026-10-20T08:00:00Z'), doneBy: 'Jo' } });
  await prisma().job.create({
    data: { clientId, siteId, skidId, kind: 'request', title: 'Is it too warm?', createdBy: 'Ole', createdAt: new Date('2026-10-21T08:00:00Z') },
  });
});
afterAll(() => app?.close());

describe('the history of a skid', () => {
  test('has what was done, proved, fitted, broken and asked for, the latest first', async () => {
    const { items, total } = await read();
    expect([...new Set(items.map(({ event }) => event))].sort()).toEqual(
      ['breakdown', 'calibration', 'clean', 'fibre repair', 'fitted', 'integrity test', 'request', 'service', 'state'].sort(),
    );
    expect(items.map(({ at }) => at)).toEqual(
      items
        .map(({ at }) => at)
        .sort()
        .reverse(),
    );
    expect(total).toBe(items.length);
    expect(items.find(({ event }) => event === 'integrity test')).toMatchObject({ kind: 'integrity', what: 'Pressure-decay test: passed, 0.50 kPa/min' });
    expect(items.find(({ event }) => event === 'breakdown')).toMatchObject({ severity: 'no water', state: 'open', note: 'Cause: Alder cause' });
  });

  test.each([
    ['work', ['Grease the bearings']],
    ['integrity', ['3 fibres closed', 'Pressure-decay test: passed, 0.50 kPa/min']],
    ['part', ['Seal, serial Alder serial']],
    ['breakdown', ['Alder pump stopped']],
    ['request', ['Is it too warm?']],
    ['calibration', ['Compared with a reference: found out of tolerance, left in tolerance']],
    ['meter', []],
  ])('is narrowed to %s', async (kind, expected) => {
    expect((await whats(`?kind=${kind}`)).sort()).toEqual(expected);
  });

  test('is narrowed to days as they begin and end at the site', async () => {
    const notes = async (query: string) => ((await read(`?kind=clean&${query}`)).items as unknown as { note: string }[]).map(({ note }) => note);
    expect(await notes('to=2026-10-09')).toEqual(['evening']);
    expect(await notes('from=2026-10-10')).toEqual(['midnight']);
    expect(await notes('from=2026-10-09&to=2026-10-10')).toEqual(['midnight', 'evening']);
    expect(await whats('?find=bearings&from=2026-10-01')).toEqual(['Grease the bearings']);
  });

  test('comes in pages that neither repeat nor leave out an entry, with the whole counted', async () => {
    const whole = (await read()).items.map(({ id }) => id);
    const ids: string[] = [];
    for (let cursor = ''; ; ) {
      const { items, next, total } = await read(`?limit=2${cursor}`);
      expect(total).toBe(whole.length);
      ids.push(...items.map(({ id }) => id));
      if (next === null) break;
      cursor = `&cursor=${next}`;
    }
    expect(ids).toEqual(whole);
  });

  test('is the same for its owner and for staff, and of no other skid', async () => {
    expect(await read('', manager)).toEqual(await read());
    expect(JSON.stringify(await read('', manager))).not.toContain('Birch');
    await client.get(`/api/skids/${other.id}/history`).expect(404);
  });

  test('says what is wrong with a question', async () => {
    for (const [query, pointer] of [
      ['kind=colour', 'kind'],
      ['from=2026-02-30', 'from'],
      ['from=2026-11-02&to=2026-11-01', 'from'],
      ['limit=0', 'limit'],
      ['cursor=e30', 'cursor'],
    ]) {
      const { body } = await client.get(`/api/skids/${skid.id}/history?${query}`).expect(400);
      expect(JSON.stringify(body)).toContain(pointer);
    }
  });

  test('is read with the same number of statements, however much there is', async () => {
    const count = () => countQueries(() => client.get(`/api/skids/${skid.id}/history?limit=200`).expect(200));
    const before = await count();
    const { id: skidId, clientId } = skid;
    const { no: loadNo } = await prisma().load.findFirstOrThrow({ where: { skidId } });
    const entry = { skidId, clientId, loadNo, task: 'Walk round', doneBy: 'Jo' };
    await prisma().serviceEntry.createMany({
      data: Array.from({ length: 150 }, (_, index) => ({ ...entry, at: new Date(Date.UTC(2026, 8, 1) + index * 60_000) })),
    });
    expect((await read('?limit=200')).items.length).toBeGreaterThan(150);
    expect(await count()).toBeLessThanOrEqual(before);
  });
});
