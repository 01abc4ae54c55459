import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database, Recompute } from '../../src/app/index.js';
import { dayPlus } from '../../src/shared/day.js';
import type { Api } from '../support/api.js';
import { makeSheet } from '../support/rules.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const TODAY = '2026-11-25';
const NOBODY = '019ab000-0000-7000-8000-000000000000';
let app: NestFastifyApplication;
let manager: Api;
let skids: SmallSkid[];
let skid: SmallSkid;
let pump: string;
let sheet: string;
let setId: string;
let draftId: string;

interface Due {
  task: string;
  bestOn: string | null;
  limit: string;
  reason: string;
  positionName: string | null;
}

const dues = async (skidId: string): Promise<Due[]> => {
  await app.get(Recompute).now(skidId);
  return (await manager.get(`/api/dues?skidId=${skidId}&limit=200`).expect(200)).body.items;
};
const dueOf = async (task: string, skidId = skid.id) => (await dues(skidId)).find((due) => due.task === task);
const rule = (more: object = {}) => ({ task: 'Check the coupling', positionKind: 'feed pump', days: 30, taskSheetId: sheet, ...more });
const pointersOf = (answer: { body: { errors?: { pointer: string }[] } }) => answer.body.errors?.map(({ pointer }) => pointer) ?? [];

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => new Date(`${TODAY}T09:00:00Z`);
  manager = await signInAs(app, 'manager');
  skids = await makeSkids(app, 'Elm', 3);
  [skid] = skids as [SmallSkid];
  const { prisma } = app.get(Database);
  await prisma.skid.updateMany({ data: { commissionedOn: new Date('2026-08-01') } });
  for (const { id: skidId, clientId } of skids) await prisma.position.create({ data: { skidId, clientId, kind: 'feed pump', name: 'Feed pump' } });
  pump = (await prisma.position.findFirstOrThrow({ where: { skidId: skid.id } })).id;
  sheet = await makeSheet(prisma, { task: 'Check the coupling', minutes: 20 });
});
afterAll(() => app?.close());

describe('a rule set', () => {
  test('begins with a draft, to which rules are added', async () => {
    const set = (await manager.post('/api/rule-sets', { name: 'Pumps' }).expect(201)).body;
    setId = set.id;
    expect(set.versions).toMatchObject([{ no: 1, publishedAt: null, rules: 0, skids: 0 }]);
    draftId = set.versions[0].id;
    await manager.post('/api/rule-sets', { name: 'Pumps' }).expect(409);
    const empty = await manager.post(`/api/rule-sets/versions/${draftId}/publish`, {}).expect(400);
    expect(pointersOf(empty)).toEqual(['#/rules']);
    const made = (await manager.post('/api/rules', rule({ ruleSetVersionId: draftId })).expect(201)).body;
    expect(made).toMatchObject({ days: 30, usualMinutes: 20, inWords: '30 days; counted from the day it was done', whileLaidUp: 'stands still' });
    await manager.put(`/api/rules/${made.id}`, rule({ days: 60 })).expect(428);
    await manager
      .put(`/api/rules/${made.id}`, rule({ days: 60 }))
      .set('if-match', '"1"')
      .expect(200)
      .expect('etag', '"2"');
    await manager
      .put(`/api/rules/${made.id}`, rule({ days: 90 }))
      .set('if-match', '"1"')
      .expect(412);
  });

  test.each([
    ['no limit at all', { days: undefined }, '#/days'],
    ['a limit below zero', { runHours: -5 }, '#/runHours'],
    ['a kind of position that does not exist', { positionKind: 'engine' }, '#/positionKind'],
    ['an outlook that does not exist', { outlookLimit: 'rust' }, '#/outlookLimit'],
    ['an outlook that says nothing of the kind', { outlookLimit: 'permeability' }, '#/outlookLimit'],
    ['a figure without a limit', { conditionFigure: 'TMP' }, '#/conditionAbove'],
    ['itself as a smaller task', { contains: ['Check the belt'], task: 'Check the belt' }, '#/contains'],
    ['a task sheet that is no id', { taskSheetId: 'coupling' }, '#/taskSheetId'],
    ['a task sheet that does not exist', { taskSheetId: NOBODY }, '#/taskSheetId'],
    ['a task that has a rule already', { days: 5 }, '#/task'],
    ['a field that is not known', { colour: 'red' }, '#/colour'],
    ['both a set and a skid', { skidId: NOBODY }, '#/skidId'],
    ['U+0000 in a name', { contains: ['\u0000'] }, '#/contains'],
  ])('takes no rule with %s', async (_, more, pointer) => {
    const answer = await manager
      .post('/api/rules', rule({ ruleSetVersionId: draftId, task: 'Check the coupling', ...more }))
      .expect(400)
      .expect('content-type', /problem\+json/);
    expect(pointersOf(answer)).toContain(pointer);
  });

  test('closes no ring among its services', async () => {
    const grease = await makeSheet(app.get(Database).prisma, { task: 'Grease' });
    const made = (await manager.post('/api/rules', rule({ ruleSetVersionId: draftId, task: 'Grease', taskSheetId: grease, days: 10 })).expect(201)).body;
    await manager.post('/api/rules', rule({ ruleSetVersionId: draftId, task: 'Overhaul', days: 100, contains: ['Grease'] })).expect(201);
    const ring = await manager
      .put(`/api/rules/${made.id}`, rule({ task: 'Grease', taskSheetId: grease, days: 10, contains: ['Overhaul'] }))
      .set('if-match', '"1"')
      .expect(400);
    expect(ring.body.errors[0]).toMatchObject({ pointer: '#/contains', message: expect.stringContaining('Grease > Overhaul > Grease') });
  });

  test('is final once it is published, and says what it changes', async () => {
    const published = (await manager.post(`/api/rule-sets/versions/${draftId}/publish`, { note: 'First' }).expect(200)).body;
    expect(published.changes.map(({ task, what }: { task: string; what: string }) => [task, what])).toEqual([
      ['Check the coupling', 'added'],
      ['Grease', 'added'],
      ['Overhaul', 'added'],
    ]);
    const [final] = published.rules;
    const refused = await manager
      .put(`/api/rules/${final.id}`, rule({ days: 1 }))
      .set('if-match', `"${final.version}"`)
      .expect(409);
    expect(JSON.stringify(refused.body)).toContain('Make a draft of the set');
    await manager.post('/api/rules', rule({ ruleSetVersionId: draftId, task: 'More' })).expect(409);
    await manager.delete(`/api/rules/${final.id}`).set('if-match', `"${final.version}"`).expect(409);
    await manager.post(`/api/rule-sets/versions/${draftId}/publish`, {}).expect(409);
    await manager.delete(`/api/rule-sets/versions/${draftId}`).expect(409);
  });
});

describe('skids that follow a set', () => {
  test('are moved several at once, after a look at what becomes of their dues', async () => {
    const ids = skids.slice(0, 2).map(({ id }) => id);
    const preview = (await manager.post(`/api/rule-sets/versions/${draftId}/preview`, { skidIds: ids }).expect(200)).body;
    expect(preview).toMatchObject({ added: 6, gone: 0, same: 0 });
    expect(await dues(skid.id)).toEqual([]);
    await manager.post(`/api/rule-sets/versions/${draftId}/skids`, { skidIds: ids }).expect(200, { moved: 2, unchanged: 0 });
    expect(await dueOf('Check the coupling')).toMatchObject({ bestOn: '2026-09-30', limit: 'calendar' });
    expect((await dueOf('Check the coupling'))?.reason).toContain('Never done on record, counted since the start on 1 Aug');
    expect(await dues(skids[2]?.id ?? '')).toEqual([]);
    const unknown = await manager.post(`/api/rule-sets/versions/${draftId}/skids`, { skidIds: [skid.id, NOBODY] }).expect(400);
    expect(pointersOf(unknown)).toEqual(['#/skidIds/1']);
    await manager.post(`/api/rule-sets/${setId}/end`, { on: TODAY }).set('if-match', '"1"').expect(409);
  });

  test('stay with their version until they are moved, and show that there is a newer one', async () => {
    const draft = (await manager.post(`/api/rule-sets/${setId}/versions`, {}).expect(201)).body;
    expect(draft).toMatchObject({ no: 2, publishedAt: null, changes: [] });
    await manager.post(`/api/rule-sets/${setId}/versions`, {}).expect(409);
    const coupling = draft.rules.find(({ task }: { task: string }) => task === 'Check the coupling');
    const grease = draft.rules.find(({ task }: { task: string }) => task === 'Grease');
    await manager
      .put(`/api/rules/${coupling.id}`, rule({ days: 120 }))
      .set('if-match', '"1"')
      .expect(200);
    await manager.delete(`/api/rules/${grease.id}`).set('if-match', '"1"').expect(204);
    await manager.post(`/api/rule-sets/versions/${draft.id}/skids`, { skidIds: [skid.id] }).expect(409);
    const { changes } = (await manager.post(`/api/rule-sets/versions/${draft.id}/publish`, {}).expect(200)).body;
    expect(changes).toEqual([
      { positionKind: 'feed pump', task: 'Check the coupling', what: 'changed', fields: [{ field: 'days', from: '60', to: '120' }] },
      { positionKind: 'feed pump', task: 'Grease', what: 'removed', fields: [] },
    ]);
    expect((await manager.get(`/api/skids/${skid.id}/rules`).expect(200)).body.follows).toMatchObject({ no: 1, newerNo: 2, newerVersionId: draft.id });
    expect((await dueOf('Check the coupling'))?.bestOn).toBe('2026-09-30');
    const preview = (await manager.post(`/api/rule-sets/versions/${draft.id}/preview`, { skidIds: [skid.id] }).expect(200)).body;
    expect(preview.skids).toMatchObject([{ follows: 'Pumps, version 1', added: 0, gone: 1, later: 1, same: 1 }]);
    await manager.post(`/api/rule-sets/versions/${draft.id}/skids`, { skidIds: [skid.id] }).expect(200);
    expect((await dueOf('Check the coupling'))?.bestOn).toBe(dayPlus('2026-08-01', 120));
    expect((await manager.get(`/api/skids/${skid.id}/rules`)).body.follows).toMatchObject({ no: 2, newerNo: null });
  });

  test('may have a rule of their own, which takes the place of that of the set and ends by date', async () => {
    const own = (await manager.post('/api/rules', rule({ skidId: skid.id, days: 10 })).expect(201)).body;
    expect((await dueOf('Check the coupling'))?.bestOn).toBe('2026-08-11');
    expect(await dueOf('Check the coupling', skids[1]?.id)).toMatchObject({ bestOn: '2026-09-30' });
    const { rules } = (await manager.get(`/api/skids/${skid.id}/rules`)).body;
    expect(rules.find(({ rule: { task } }: { rule: { task: string } }) => task === 'Check the coupling')).toMatchObject({
      source: 'skid',
      positionName: 'Feed pump',
    });
    await manager.delete(`/api/rules/${own.id}`).set('if-match', '"1"').expect(409);
    await manager.post(`/api/rules/${own.id}/end`, { on: TODAY }).set('if-match', '"1"').expect(204);
    expect((await dueOf('Check the coupling'))?.bestOn).toBe('2026-11-29');
  });

  test('may override a rule with a reason, at one position or at all, until that ends', async () => {
    const path = `/api/skids/${skid.id}/rules/overrides`;
    const override = { task: 'Check the coupling', positionKind: 'feed pump', days: 150, reason: 'Runs half the time only' };
    for (const [more, pointer] of [
      [{ reason: '  ' }, '#/reason'],
      [{ reason: undefined }, '#/reason'],
      [{ days: undefined }, '#/days'],
      [{ off: true }, '#/off'],
      [{ task: 'Paint it' }, '#/task'],
      [{ positionId: NOBODY }, '#/positionId'],
      [{ positionKind: 'engine' }, '#/positionKind'],
    ] as const) {
      expect(pointersOf(await manager.post(path, { ...override, ...more }).expect(400))).toContain(pointer);
    }
    const made = (await manager.post(path, { ...override, positionId: pump }).expect(201)).body;
    expect(made).toMatchObject({ positionName: 'Feed pump', by: 'A manager', endedAt: null });
    await manager.post(path, { ...override, positionId: pump }).expect(409);
    expect((await dueOf('Check the coupling'))?.bestOn).toBe(dayPlus('2026-08-01', 150));
    const view = (await manager.get(`/api/skids/${skid.id}/rules`)).body;
    expect(view.rules).toContainEqual(expect.objectContaining({ source: 'override', reason: 'Runs half the time only', overrideId: made.id }));
    await manager.post(`${path}/${made.id}/end`).expect(204);
    await manager.post(`${path}/${made.id}/end`).expect(404);
    expect((await dueOf('Check the coupling'))?.bestOn).toBe('2026-11-29');
    await manager.post(path, { task: 'Overhaul', positionKind: 'feed pump', off: true, reason: 'No such pump' }).expect(201);
    expect(await dueOf('Overhaul')).toBeUndefined();
  });

  test('leave it again after a look at what goes, and keep the rules that are theirs alone', async () => {
    const { id } = skids[1] as SmallSkid;
    const own = (await manager.post('/api/rules', rule({ task: 'Listen to it', skidId: id, days: 40 })).expect(201)).body;
    const before = await dues(id);
    expect(before.map(({ task }) => task)).toContain('Grease');
    const preview = (await manager.post('/api/rule-sets/leave/preview', { skidIds: [id] }).expect(200)).body;
    expect(preview.skids).toMatchObject([{ follows: 'Pumps, version 1', added: 0, gone: before.length - 1, same: 1 }]);
    expect(await dues(id)).toHaveLength(before.length);
    await manager.post('/api/rule-sets/leave', { skidIds: [id] }).expect(200, { moved: 1, unchanged: 0 });
    await manager.post('/api/rule-sets/leave', { skidIds: [id] }).expect(200, { moved: 0, unchanged: 1 });
    expect((await dues(id)).map(({ task }) => task)).toEqual(['Listen to it']);
    expect((await manager.get(`/api/skids/${id}/rules`)).body).toMatchObject({ follows: null, rules: [{ source: 'skid', rule: { id: own.id } }] });
    const kept = await app.get(Database).prisma.ruleSetChange.findMany({ where: { skidId: id }, orderBy: { at: 'asc' } });
    expect(kept).toMatchObject([{ toVersionId: draftId }, { fromVersionId: draftId, toVersionId: null, by: 'A manager' }]);
    const unknown = await manager.post('/api/rule-sets/leave', { skidIds: [NOBODY] }).expect(400);
    expect(pointersOf(unknown)).toEqual(['#/skidIds/0']);
  });
});

describe('a skid that is laid up', () => {
  const state = (value: string, on: string, skidId: string) =>
    manager.post(`/api/skids/${skidId}/service-state`, { state: value, at: `${on}T08:00:00Z` }).expect(201);

  test('lets rules stand still, run on, or hold only then', async () => {
    const { id: skidId } = skids[2] as SmallSkid;
    const sheets = ['Renew the liquid', 'Test the fence', 'Look at the paint'];
    for (const [at, whileLaidUp] of (['only then', 'runs on', 'stands still'] as const).entries()) {
      const task = sheets[at] ?? '';
      const taskSheetId = await makeSheet(app.get(Database).prisma, { task });
      await manager.post('/api/rules', { task, positionKind: 'skid', skidId, days: 100, whileLaidUp, taskSheetId }).expect(201);
    }
    const days = async () => Object.fromEntries((await dues(skidId)).map(({ task, bestOn }) => [task, bestOn]));
    expect(await days()).toEqual({ 'Test the fence': '2026-11-09', 'Look at the paint': '2026-11-09' });
    await state('laid up', '2026-10-01', skidId);
    expect(await days()).toEqual({ 'Test the fence': '2026-11-09', 'Renew the liquid': '2027-01-09' });
    await state('in service', '2026-10-31', skidId);
    // thirty days did not count
    expect(await days()).toEqual({ 'Test the fence': '2026-11-09', 'Look at the paint': '2026-12-09' });
  });
});

describe('the starting library', () => {
  test('is loaded once, as a set that skids can follow, with sheets', async () => {
    const first = (await manager.post('/api/rule-sets/library').expect(200)).body;
    expect(first).toMatchObject({ name: 'UF skid, common practice' });
    expect(first.rulesMade).toBeGreaterThan(20);
    const again = (await manager.post('/api/rule-sets/library').expect(200)).body;
    expect(again).toMatchObject({ ruleSetId: first.ruleSetId, ruleSetVersionId: first.ruleSetVersionId, rulesMade: 0, sheetsMade: 0 });
    await manager.post(`/api/rule-sets/versions/${first.ruleSetVersionId}/skids`, { skidIds: [skid.id] }).expect(200);
    const tasks = (await dues(skid.id)).map(({ task, positionName }) => [task, positionName]);
    expect(tasks).toContainEqual(['Hold an integrity test', null]);
    expect(tasks.map(([task]) => task)).not.toContain('Renew the preservative');
    const sheets = (await manager.get('/api/task-sheets?limit=200&kind=restart').expect(200)).body.items;
    expect(sheets).toMatchObject([{ task: 'Restart the skid', crew: 2 }]);
  });

  test('gives an hour figure for greasing a bearing', async () => {
    const ask = (query: string) => manager.get(`/api/rules/relubrication?${query}`);
    expect((await ask('kind=deep-groove%20ball&speedPerMin=2900&boreMm=45').expect(200)).body.hours).toBe(5397);
    expect((await ask('kind=spherical%20roller&speedPerMin=20000&boreMm=300').expect(200)).body).toMatchObject({ hours: null });
    await ask('kind=plain&speedPerMin=2900&boreMm=45').expect(400);
  });
});

test('rules are a manager’s to make and staff’s to read', async () => {
  const technician = await signInAs(app, 'technician');
  await technician.get('/api/rule-sets').expect(200);
  await technician.post('/api/rules', rule({ skidId: skid.id, task: randomUUID() })).expect(403);
  const client = await signInAs(app, 'client', { clientId: skid.clientId });
  for (const path of ['/api/rule-sets', `/api/skids/${skid.id}/rules`, '/api/task-sheets', '/api/upkeep/load']) await client.get(path).expect(403);
});
