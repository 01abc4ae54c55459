import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { Clock, Database } from '../../src/app/index.js';
import type { Api } from '../support/api.js';
import { countQueries } from '../support/count-queries.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-11-25T09:00:00Z');
const PERIOD = 'from=2026-10-01&to=2026-10-30';
let app: NestFastifyApplication;
let alder: SmallSkid;
let birch: SmallSkid;
let manager: Api;
let client: Api;

interface Shown {
  readonly code: string;
  readonly value: number | null;
  readonly numerator: { value: number };
  readonly denominator: { value: number };
  readonly tooLittle: string | null;
  readonly remarks: string[];
}

beforeAll(async () => {
  app = await startTestApp();
  app.get(Clock).now = () => NOW;
  [alder] = (await makeSkids(app, 'Alder', 1, 'Etc/UTC')) as [SmallSkid];
  [birch] = (await makeSkids(app, 'Birch', 1, 'Etc/UTC')) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: alder.clientId });
  const { prisma } = app.get(Database);
  const { no: skidNo, clientId, id: skidId, siteId } = alder;
  // Thirty days of 20 hours of filtration; laid up for the last ten of them
  await prisma.dailyCondition.createMany({
    data: Array.from({ length: 20 }, (_, day) => ({
      skidNo,
      day: new Date(Date.UTC(2026, 9, 1 + day)),
      clientId,
      cycles: 20,
      filtrationHours: 20,
      filtrateEstimated: false,
      permeabilityCount: 0,
      leftOut: {},
      cartridgeLeftOut: {},
      byHand: false,
    })),
  });
  await prisma.serviceStateChange.create({ data: { clientId, skidId, at: new Date('2026-10-21T00:00:00Z'), state: 'laid up', by: 'T' } });
  const job = (about: object) => ({ clientId, siteId, skidId, title: 'x', createdBy: 'T', ...about });
  const failed = (at: string, about: object) => ({ clientId, skidId, severity: 'no water', source: 'staff', noticedAt: new Date(at), ...about });
  // One stop of 8 h, of which 2 h were repair; one that cost no water; one of which no time is known; one long over
  for (const [at, about] of [
    ['2026-10-05T10:00:00Z', { downFrom: new Date('2026-10-05T06:00:00Z'), restoredAt: new Date('2026-10-05T14:00:00Z'), repairMinutes: 120 }],
    ['2026-10-08T10:00:00Z', { severity: 'can wait' }],
    ['2026-10-12T10:00:00Z', {}],
    ['2026-05-12T10:00:00Z', { downFrom: new Date('2026-05-12T06:00:00Z'), restoredAt: new Date('2026-05-12T14:00:00Z') }],
  ] as const) {
    const finished = { kind: 'breakdown', state: 'finished', finishedAt: new Date(at), createdAt: new Date(at) };
    await prisma.job.create({ data: { ...job(finished), breakdown: { create: failed(at, about) } } as never });
  }
  // Four tasks whose latest day is past: two in time, one a day late, one not done; the report of three hours
  const task = (outcome: string | null, latestOn: string, doneAt: string | null, place: number) => ({
    clientId,
    place,
    task: `Task ${place}`,
    outcome,
    latestOn: new Date(latestOn),
    doneAt: doneAt === null ? null : new Date(doneAt),
  });
  const tasks = [
    task('done', '2026-10-10', '2026-10-10T18:00:00Z', 1),
    task('done', '2026-10-12', '2026-10-10T18:00:00Z', 2),
    task('done', '2026-10-09', '2026-10-10T18:00:00Z', 3),
    task(null, '2026-10-15', null, 4),
  ];
  const report = {
    clientId,
    byId: alder.id,
    by: 'T',
    startedAt: NOW,
    finishedAt: NOW,
    state: 'counts',
    minutes: 180,
    content: {},
    contentHash: '',
    summary: {},
  };
  await prisma.job.create({
    data: {
      ...job({ kind: 'service', state: 'finished', finishedAt: new Date('2026-10-10T18:00:00Z') }),
      tasks: { create: tasks },
      reports: { create: { ...report, id: '0190a0b0-0000-7000-8000-000000000001' } },
    } as never,
  });
  // Work that lies there: 10 h ready, 5 h waiting, one task that nobody timed
  for (const [state, expectedMinutes] of [
    ['open', 600],
    ['waiting', 300],
    ['open', null],
  ] as const) {
    await prisma.job.create({
      data: {
        ...job({ kind: 'service', state }),
        tasks: { create: { clientId, place: 1, task: `Open ${state} ${expectedMinutes}`, expectedMinutes } },
      } as never,
    });
  }
  // A due that nobody made a job of
  const due = { clientId, skidNo, task: 'Oil', limit: 'calendar', reason: '', computedFrom: [], computedAt: NOW };
  await prisma.due.create({ data: { ...due, bestOn: new Date('2026-10-01'), latestOn: new Date('2026-10-20') } });
});
afterAll(() => app?.close());

async function read(query: string, by = manager): Promise<Record<string, Shown>> {
  const { body } = await by.get(`/api/indicators?${query}`).expect(200);
  return Object.fromEntries(body.indicators.map((indicator: Shown) => [indicator.code, indicator]));
}

const parts = (indicator: Shown | undefined) => [indicator?.value, indicator?.numerator.value, indicator?.denominator.value];

describe('indicators of a skid', () => {
  test('are reckoned from the time asked for, without lay-up, and show both parts', async () => {
    const shown = await read(`skidId=${alder.id}&${PERIOD}`);
    expect(parts(shown.availability)).toEqual([((480 - 8) / 480) * 100, 472, 480]);
    expect(shown.availability?.remarks).toEqual(['1 without water whose down time is not known: not in this figure.']);
    expect(parts(shown.mtbf)).toEqual([200, 400, 2]);
    expect(parts(shown['time-between-failures'])).toEqual([240, 480, 2]);
    expect(shown.mtbf?.tooLittle).toMatch(/^2 failures alone/);
    expect(parts(shown['time-to-restoration'])).toEqual([8, 8, 1]);
    expect(parts(shown['repair-time'])).toEqual([2, 2, 1]);
  });

  test('say what counts as a failure, and change with it', async () => {
    const all = await read(`skidId=${alder.id}&${PERIOD}&count=all`);
    expect(parts(all.mtbf)).toEqual([400 / 3, 400, 3]);
    expect((await read(`skidId=${alder.id}&${PERIOD}&failureMode=vibration`)).mtbf?.tooLittle).toMatch(/^No failure in this time/);
  });

  test('of the work count what was late, not done, or never made a job', async () => {
    const shown = await read(`skidId=${alder.id}&${PERIOD}`);
    expect(parts(shown['done-in-time'])).toEqual([40, 2, 5]);
    expect(parts(shown['preventive-hours'])).toEqual([100, 3, 3]);
    expect(parts(shown['preventive-jobs'])).toEqual([25, 1, 4]);
  });

  test('of the backlog take the hours of the technicians, or those that are named', async () => {
    const shown = await read(`skidId=${alder.id}`);
    expect(parts(shown.backlog)).toEqual([0.5, 15, 30]);
    expect(parts(shown['backlog-ready'])).toEqual([10 / 30, 10, 30]);
    expect(shown.backlog?.remarks).toEqual(['1 task without an expected time: not in this figure.']);
    expect((await read(`skidId=${alder.id}&crewHours=3`)).backlog?.value).toBe(5);
    expect((await read(`skidId=${alder.id}&crewHours=0`)).backlog).toMatchObject({ value: null, tooLittle: expect.any(String) });
  });

  test('that knows nothing yet has no value, and says why', async () => {
    const shown = await read(`skidId=${birch.id}&${PERIOD}`);
    expect(shown.availability?.value).toBe(100);
    for (const code of ['mtbf', 'time-between-failures', 'time-to-restoration', 'repair-time', 'done-in-time', 'preventive-hours']) {
      expect([code, shown[code]?.value]).toEqual([code, null]);
      expect(shown[code]?.tooLittle).toEqual(expect.any(String));
    }
  });
});

describe('indicators', () => {
  test('of the fleet add the skids, with as many queries for many as for one', async () => {
    const fleet = await read(PERIOD);
    expect(fleet.availability?.denominator.value).toBe(480 + 720);
    expect((await read(`clientId=${birch.clientId}&${PERIOD}`)).availability?.denominator.value).toBe(720);
    const one = await countQueries(() => read(`skidId=${alder.id}&${PERIOD}`));
    await makeSkids(app, 'Cedar', 20);
    expect(await countQueries(() => read(PERIOD))).toBe(one);
  });

  test('are read by a client for their own skids, without the hours of the department', async () => {
    const shown = await read(PERIOD, client);
    expect(Object.keys(shown).sort()).toEqual(['availability', 'done-in-time', 'mtbf', 'repair-time', 'time-between-failures', 'time-to-restoration']);
    expect(parts(shown.availability)).toEqual(parts((await read(`skidId=${alder.id}&${PERIOD}`)).availability));
    await client.get(`/api/indicators?skidId=${birch.id}`).expect(404);
    await client.get(`/api/indicators?clientId=${birch.clientId}`).expect(404);
  });

  test.each([
    ['from=2026-11-02&to=2026-11-01', '#/from'],
    ['from=1900-01-01&to=2026-11-01', '#/from'],
    ['from=yesterday', '#/from'],
    ['count=some', '#/count'],
    ['crewHours=-1', '#/crewHours'],
    ['mechanism=7.7', '#/mechanism'],
    ['positionId=0190a0b0-0000-7000-8000-000000000001', '#/skidId'],
  ])('with %s are refused with a pointer', async (query, pointer) => {
    expect(pointersOf((await manager.get(`/api/indicators?${query}`).expect(400)).body)).toEqual([pointer]);
  });
});

describe('indicators of visits', () => {
  let fir: SmallSkid;

  beforeAll(async () => {
    [fir] = (await makeSkids(app, 'Fir', 1, 'Etc/UTC')) as [SmallSkid];
    const { prisma } = app.get(Database);
    const { clientId, siteId, id: skidId } = fir;
    const visit = async (day: string, state: string) => {
      const about = { clientId, siteId, onDay: new Date(day), startTime: '08:00', minutes: 60, createdBy: 'T', promisedAt: NOW };
      return (await prisma.visit.create({ data: { ...about, state } })).id;
    };
    const sheet = (day: string, minutes: number, content: object) => {
      const at = new Date(`${day}T09:00:00Z`);
      return {
        id: randomUUID(),
        clientId,
        byId: skidId,
        by: 'T',
        startedAt: at,
        finishedAt: at,
        state: 'counts',
        minutes,
        content,
        contentHash: '',
        summary: {},
      };
    };
    const done = async (day: string, visitId: string, expectedMinutes: number | null, sheets: object[]) => {
      const about = {
        clientId,
        siteId,
        skidId,
        kind: 'service',
        title: 'x',
        createdBy: 'T',
        state: 'finished',
        finishedAt: new Date(`${day}T12:00:00Z`),
        visitId,
      };
      const task = { clientId, place: 1, task: 'Oil', outcome: 'done', expectedMinutes };
      await prisma.job.create({ data: { ...about, tasks: { create: task }, reports: { create: sheets } } as never });
    };
    // One as promised, one a day later and with a second sheet, one called off, one to which nobody came
    await done('2026-10-06', await visit('2026-10-06', 'finished'), 60, [sheet('2026-10-06', 90, { travelMinutes: 30 })]);
    const late = await visit('2026-10-09', 'finished');
    await prisma.visitChange.create({
      data: { visitId: late, clientId, by: 'T', what: 'time', from: '2026-10-08 08:00', to: '2026-10-09 08:00', toClient: true },
    });
    await done('2026-10-10', late, null, [sheet('2026-10-09', 60, { outcome: 'to be continued' }), sheet('2026-10-10', 60, {})]);
    await visit('2026-10-12', 'called off');
    await visit('2026-10-20', 'promised');
  });

  test('say what was finished at once, what the way took, which promises were kept, and how long work took', async () => {
    const shown = await read(`skidId=${fir.id}&${PERIOD}`);
    expect(parts(shown['first-visit-completion'])).toEqual([50, 1, 2]);
    expect(parts(shown['travel-share'])).toEqual([25, 0.5, 2]);
    expect(shown['travel-share']?.remarks).toEqual(['1 visit is left out: no sheet says how long the way took.']);
    expect(parts(shown['promises-kept'])).toEqual([25, 1, 4]);
    expect(parts(shown['time-as-planned-service'])).toEqual([150, 1.5, 1]);
    expect(shown['time-as-planned-service']?.remarks).toEqual(['1 job is left out: the usual time of a task is not known.']);
  });

  test('have no value where nothing was promised, and no kind of work that was not done', async () => {
    const shown = await read(`skidId=${birch.id}&${PERIOD}`);
    for (const code of ['first-visit-completion', 'travel-share', 'promises-kept']) expect([code, shown[code]?.value]).toEqual([code, null]);
    expect(Object.keys(shown).filter((code) => code.startsWith('time-as-planned'))).toEqual([]);
  });
});
