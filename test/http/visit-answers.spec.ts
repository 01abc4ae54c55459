import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { makeDue, signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let client: Api;
let stranger: Api;
let ada: { id: string };
let alder: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date('2026-11-25T09:00:00Z');
  manager = await signInAs(app, 'manager');
  ada = await signInByName(app, 'Ada');
  [alder] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  const [birch] = (await makeSkids(app, 'Birch', 1)) as [SmallSkid];
  client = await signInAs(app, 'client', { clientId: alder.clientId });
  stranger = await signInAs(app, 'client', { clientId: birch.clientId });
});
afterAll(() => app?.close());

const plan = async (onDay = '2026-12-01'): Promise<{ id: string; no: number; version: number }> => {
  const dueId = await makeDue(app, alder, `Change the oil for ${onDay}`);
  return (await manager.post('/api/visits', { siteId: alder.siteId, onDay, startTime: '08:00', personIds: [ada.id], dueIds: [dueId] }).expect(201)).body;
};
const propose = async (visitId: string, note = ''): Promise<string> => (await manager.post(`/api/visits/${visitId}/proposals`, { note }).expect(201)).body.id;
const asked = async (by = client) => (await by.get('/api/proposed-visits').expect(200)).body as { id: string; visitId: string; answer: string | null }[];
const idsAsked = async (by = client) => (await asked(by)).map(({ id }) => id);
const visit = async (id: string) => (await manager.get(`/api/visits/${id}`).expect(200)).body;

describe('a day that is proposed to a client', () => {
  test('is read by that client alone, who does not read the visit itself, and is no promise', async () => {
    const { id } = await plan();
    const proposalId = await propose(id, 'We need the gate key');
    expect((await asked()).find((each) => each.id === proposalId)).toMatchObject({
      siteName: 'Alder site',
      onDay: '2026-12-01',
      startTime: '08:00',
      note: 'We need the gate key',
      work: [{ skidName: 'Alder 1' }],
      answer: null,
    });
    expect(await idsAsked(stranger)).toEqual([]);
    await client.get(`/api/visits/${id}`).expect(404);
    expect((await visit(id)).state).toBe('planned');
  });

  test('is confirmed: the manager reads it, and promises the visit or not', async () => {
    const { id } = await plan('2026-12-02');
    const proposalId = await propose(id);
    expect((await client.post(`/api/proposed-visits/${proposalId}/confirm`).expect(200)).body).toMatchObject({ answer: 'confirmed', answeredBy: 'A client' });
    await client.post(`/api/proposed-visits/${proposalId}/confirm`).expect(200);
    const { state, changes } = await visit(id);
    expect(state).toBe('planned');
    const told = changes.filter(({ what, by }: { what: string; by: string }) => what === 'answer' && by === 'A client');
    expect(told).toMatchObject([{ to: 'confirmed 2026-12-02 08:00' }]);
    await manager.post(`/api/visits/${id}/promise`).expect(200);
    expect(await idsAsked()).not.toContain(proposalId);
  });

  test('is declined with a reason and the days that would suit', async () => {
    const { id } = await plan('2026-12-03');
    const proposalId = await propose(id);
    const path = `/api/proposed-visits/${proposalId}/decline`;
    expect(pointersOf((await client.post(path, { reason: ' ', wishedDays: [] }).expect(400)).body)).toEqual(['#/reason']);
    expect(pointersOf((await client.post(path, { reason: 'Shut down', wishedDays: ['2026-12-08', '2026-11-24'] }).expect(400)).body)).toEqual([
      '#/wishedDays/1',
    ]);
    await client.post(path, { reason: 'Shut down that week', wishedDays: ['2026-12-08', '2026-12-09'] }).expect(200);
    const [latest] = (await manager.get(`/api/visits/${id}/proposals`).expect(200)).body;
    expect(latest).toMatchObject({ answer: 'declined', reason: 'Shut down that week', wishedDays: ['2026-12-08', '2026-12-09'], closedAt: null });
    expect((await visit(id)).changes.at(-1)).toMatchObject({ what: 'answer', note: 'Shut down that week Would suit: 2026-12-08, 2026-12-09' });
  });

  test('is answered by nobody else, and is not found by another client', async () => {
    const proposalId = await propose((await plan('2026-12-04')).id);
    await stranger.post(`/api/proposed-visits/${proposalId}/confirm`).expect(404);
    await stranger.post(`/api/proposed-visits/${proposalId}/decline`, { reason: 'No', wishedDays: [] }).expect(404);
    const [operator, elsewhere] = [
      await signInAs(app, 'client', { clientId: alder.clientId, siteId: alder.siteId }),
      (await makeSkids(app, 'Alder two', 1))[0] as SmallSkid,
    ];
    expect(await idsAsked(operator)).toContain(proposalId);
    const other = await signInAs(app, 'client', { clientId: alder.clientId, siteId: elsewhere.siteId });
    expect(await idsAsked(other)).toEqual([]);
    await other.post(`/api/proposed-visits/${proposalId}/confirm`).expect(404);
  });

  test('is asked no longer once the visit is shifted, called off or proposed anew', async () => {
    const { id, version } = await plan('2026-12-07');
    const first = await propose(id);
    const second = await propose(id);
    expect(await idsAsked()).not.toContain(first);
    await manager.patch(`/api/visits/${id}`, version, { note: 'Bring the long ladder' }).expect(200);
    expect(await idsAsked()).toContain(second);
    await manager.patch(`/api/visits/${id}`, version + 1, { onDay: '2026-12-10' }).expect(200);
    expect(await idsAsked()).not.toContain(second);
    await client.post(`/api/proposed-visits/${second}/confirm`).expect(409);
    const third = await propose(id);
    await manager.post(`/api/visits/${id}/call-off`, { reason: 'No longer needed' }).expect(200);
    await client.post(`/api/proposed-visits/${third}/decline`, { reason: 'No', wishedDays: [] }).expect(409);
    await manager.post(`/api/visits/${id}/proposals`, {}).expect(409);
  });
});
