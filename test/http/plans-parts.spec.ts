import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { knowPerson } from '../support/planning.js';
import { make } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let storekeeper: Api;
let skid: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  // A Wednesday; the plan begins on the Monday after.
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  [manager, storekeeper] = [await signInAs(app, 'manager'), await signInAs(app, 'storekeeper')];
  [skid] = (await makeSkids(app, 'Near', 1)) as [SmallSkid];
  await app.get(Database).prisma.site.update({ where: { id: skid.siteId }, data: { latitude: 50.2, longitude: 8 } });
  await knowPerson(manager, (await signInByName(app, 'Ada')).id, {});
});
afterAll(() => app?.close());

test('work is planned when its parts are there, and what is neither there nor on its way is named', async () => {
  const store = await make(storekeeper, '/api/places', { name: 'Main store', kind: 'store' });
  const seal = await make(storekeeper, '/api/items', { code: 'S-1', name: 'Seal', kind: 'seal' });
  const receive = (quantity: string) =>
    storekeeper
      .post('/api/stock/posts', {
        id: randomUUID(),
        kind: 'receive',
        at: '2026-11-25T08:00:00Z',
        note: '',
        moves: [{ itemId: seal.id, quantity, toPlaceId: store.id }],
      })
      .expect(201);
  const versions = { create: { no: 1, createdBy: 'test', usualMinutes: 30, steps: [], parts: { create: [{ itemId: seal.id, quantity: 2 }] } } };
  const sheet = await app.get(Database).prisma.taskSheet.create({ data: { task: 'Change the seals', kind: 'service', versions } });
  await makeDue(app, skid, 'Change the seals', { taskSheetId: sheet.id });
  const plan = async () => (await manager.post('/api/plans', { firstDay: '2026-11-30', days: 5, seconds: 0 }).expect(201)).body;
  // Nobody keeps a record of the item: it holds nothing up.
  expect((await plan()).lines).toHaveLength(1);
  await receive('1');
  const short = await plan();
  expect(short.lines).toEqual([]);
  expect(short.notInPlan[0].reason).toBe('1 × S-1 Seal is neither there nor on its way with a day: order it, or have it sent');
  await receive('1');
  expect((await plan()).lines).toHaveLength(1);
});
