import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { addHours } from 'date-fns/addHours';
import { Clock, Database } from '../../src/app/index.js';
import { NoticeRound } from '../../src/notices/notice-round.js';
import { MailServer, toOf } from '../support/mail-server.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

/** A Wednesday, seven in the morning in Madrid, where the sites are. */
const WEDNESDAY = new Date('2026-11-25T06:00:00Z');
const MONDAY = new Date('2026-11-30T06:00:00Z');

const server = new MailServer();
let app: NestFastifyApplication;
let database: Database;
let alder: SmallSkid;
let birch: SmallSkid;
let technicianId: string;

beforeAll(async () => {
  await server.start();
  app = await startTestApp(undefined, { mail: { url: server.url, from: 'service@company.example' } });
  database = app.get(Database);
  [alder, birch] = (await Promise.all(['Alder', 'Birch'].map((name) => makeSkids(app, name, 1).then(([skid]) => skid)))) as [SmallSkid, SmallSkid];
  for (const role of ['manager', 'storekeeper', 'technician']) await signInAs(app, role);
  const client = await signInAs(app, 'client', { clientId: alder.clientId });
  await client.put('/api/me/notices', { digest: 'weekly', hour: 7, timeZone: 'Europe/Madrid', atOnce: false }).expect(200);
  const { person } = database.prisma;
  for (const role of ['manager', 'storekeeper', 'technician', 'client']) {
    await person.updateMany({ where: { role }, data: { email: `${role}@company.example`, passwordHash: 'set' } });
  }
  technicianId = (await person.findFirstOrThrow({ where: { role: 'technician' } })).id;
});
afterAll(async () => {
  await app?.close();
  await server.stop();
});

/** What people got, by whom it went to. */
async function digestsAt(now: Date): Promise<Record<string, { subject: string | undefined; text: string }>> {
  Object.assign(app.get(Clock), { now: () => now });
  await app.get(NoticeRound).now();
  const mails = server.taken().filter(({ subject }) => subject?.startsWith('Skidkeep: '));
  return Object.fromEntries(mails.map((mail) => [toOf(mail), { subject: mail.subject, text: mail.text ?? '' }]));
}

describe('a digest', () => {
  test('with nothing in it is not sent', async () => {
    expect(await digestsAt(new Date('2026-11-24T06:00:00Z'))).toEqual({});
  });

  test('tells each role what concerns it', async () => {
    await makeWork();
    const got = await digestsAt(WEDNESDAY);
    expect(Object.keys(got).sort()).toEqual(['manager@company.example', 'storekeeper@company.example', 'technician@company.example']);

    const manager = got['manager@company.example'];
    expect(manager?.subject).toBe('Skidkeep: 12 overdue, 1 due');
    expect(manager?.text).toBe(`For A manager, Wednesday 25 Nov 2026.

1 breakdown open
- Less water at Birch 1, Birch site (Birch). job ${await jobNo('Less pressure')}: Less pressure; taken by nobody

1 job sheet waits for you
- Alder 1, job ${await jobNo('Yearly service')}: Yearly service (Tarek): somebody else finished the job: say which sheet counts

12 tasks overdue, 1 due
${Array.from({ length: 10 }, (_, n) => `- Overdue: Oil ${String(n).padStart(2, '0')}, Alder 1, Alder site; latest 20 Nov; 2000 h run since the last change`).join('\n')}
- and 3 more

2 visits in the next seven days
- Thursday 26 Nov, 09:00, Alder site (Alder): A technician, Vera
- Friday 27 Nov, 13:30, Birch site (Birch)

You get this every day from 07:00 on (Europe/Madrid). Change or stop it in Skidkeep under Notices.
`);

    expect(got['technician@company.example']).toMatchObject({ subject: 'Skidkeep: 1 visit in the next seven days' });
    expect(got['technician@company.example']?.text).toContain(
      `- Thursday 26 Nov, 09:00, Alder site (Alder); with Vera; Alder 1, job ${await jobNo('Yearly service')}: Yearly service`,
    );

    const store = got['storekeeper@company.example'];
    expect(store?.subject).toBe('Skidkeep: 2 items short, 1 tank running low');
    expect(store?.text).toContain('- F-10 Filter cartridge: 12 pcs needed, 5 on hand\n- W-1 Wipes: 2 pcs needed, 0 on hand');
    expect(store?.text).toContain('- Acid tank (citric acid), Alder 1, Alder site: may run short from 30 Nov');
    expect(store?.text).not.toContain('F-20');
  });

  test('comes once a day, whoever works on it, and not long after its hour', async () => {
    expect(await digestsAt(addHours(WEDNESDAY, 1))).toEqual({});
    await database.prisma.digestDay.deleteMany();
    await database.prisma.mail.deleteMany();
    Object.assign(app.get(Clock), { now: () => addHours(WEDNESDAY, 1) });
    await Promise.all([1, 2, 3].map(() => app.get(NoticeRound).now()));
    expect(server.taken().map(toOf).sort()).toEqual(['manager@company.example', 'storekeeper@company.example', 'technician@company.example']);
    await database.prisma.digestDay.deleteMany();
    expect(await digestsAt(addHours(WEDNESDAY, 3))).toEqual({});
    expect(await digestsAt(addHours(WEDNESDAY, -1))).toEqual({});
  });

  test('of a client tells of their own skids only, in plain words, on Mondays', async () => {
    await clientFillsTheTank();
    const client = (await digestsAt(MONDAY))['client@company.example'];
    expect(client?.subject).toBe('Skidkeep: your skids, 30 Nov 2026');
    expect(client?.text).toBe(`For A client, Monday 30 Nov 2026.

Chemicals that you see to
- Acid tank, Alder 1, Alder site: Please have about 150 L of citric acid in the tank by 30 Nov: from then on it may run short.

Visits that we promised
- Thursday 3 Dec, 10:00, Alder site (Alder): Vera; We bring the new pump.

Work done lately
- Valve changed, Alder 1, 26 Nov

Your skids
- Alder 1, Alder site: in service, work is overdue (Oil 00)

You get this every Monday from 07:00 on (Europe/Madrid). Change or stop it in Skidkeep under Notices.
`);
    expect(client?.text).not.toMatch(/Birch|secret/);
  });

  test('is not sent to people who have ended, or whose client has', async () => {
    await database.prisma.digestDay.deleteMany();
    await database.prisma.mail.deleteMany();
    await database.prisma.person.updateMany({ where: { role: 'manager' }, data: { endedAt: WEDNESDAY } });
    await database.prisma.client.update({ where: { id: alder.clientId }, data: { endedOn: new Date('2026-11-01') } });
    expect(Object.keys(await digestsAt(addHours(MONDAY, 1))).sort()).toEqual(['storekeeper@company.example']);
  });
});

const jobNo = async (title: string) => (await database.prisma.job.findFirstOrThrow({ where: { title } })).no;
const day = (text: string) => new Date(`${text}T00:00:00Z`);

async function makeWork(): Promise<void> {
  const { prisma } = database;
  const due = { clientId: alder.clientId, skidNo: alder.no, limit: 'run hours', computedFrom: [], computedAt: WEDNESDAY };
  const reason = '2000 h run since the last change';
  const overdue = Array.from({ length: 12 }, (_, n) => ({
    ...due,
    task: `Oil ${String(n).padStart(2, '0')}`,
    reason,
    bestOn: day('2026-11-10'),
    latestOn: day('2026-11-20'),
  }));
  await prisma.due.createMany({ data: [...overdue, { ...due, task: 'Filter', reason, bestOn: day('2026-11-28'), latestOn: day('2026-12-05') }] });

  const version = { no: 1, createdBy: 'T', usualMinutes: 60 };
  const sheet = await prisma.taskSheet.create({
    data: { task: 'Yearly service', kind: 'service', versions: { create: version } },
    include: { versions: true },
  });
  const versionId = sheet.versions[0]?.id ?? '';
  for (const [code, name, quantity, everyVisit] of [
    ['F-10', 'Filter cartridge', 6, false],
    ['F-20', 'Seal', 1, false],
    ['W-1', 'Wipes', 1, true],
  ] as const) {
    const item = await prisma.item.create({ data: { code, name, kind: 'seal', unit: 'pcs' } });
    await prisma.taskSheetPart.create({ data: { versionId, itemId: item.id, quantity, everyVisit } });
  }
  await stock('F-10', 5);
  await stock('F-20', 40);

  const visit = async (skid: SmallSkid, onDay: string, startTime: string, about: object = {}) =>
    prisma.visit.create({ data: { clientId: skid.clientId, siteId: skid.siteId, onDay: day(onDay), startTime, minutes: 120, createdBy: 'T', ...about } });
  const job = async (
    { id: skidId, clientId, siteId }: SmallSkid,
    about: { title: string; kind: string; visitId?: string; state?: string; finishedAt?: Date },
    sheets = 0,
  ) => {
    const tasks = Array.from({ length: sheets }, (_, place) => ({ place, clientId, task: 'Yearly service', sheetVersionId: versionId }));
    return prisma.job.create({ data: { skidId, clientId, siteId, createdBy: 'T', ...about, tasks: { create: tasks } } });
  };
  const first = await visit(alder, '2026-11-26', '09:00');
  await prisma.visitPerson.create({ data: { visitId: first.id, personId: technicianId, clientId: alder.clientId, name: 'A technician' } });
  const vera = await prisma.person.create({ data: { name: 'Vera', email: 'vera@company.example', role: 'technician' } });
  await prisma.visitPerson.create({ data: { visitId: first.id, personId: vera.id, clientId: alder.clientId, name: 'Vera' } });
  const second = await visit(birch, '2026-11-27', '13:30', { note: 'secret' });
  await visit(alder, '2026-11-28', '08:00', { state: 'called off' });
  const promised = await visit(alder, '2026-12-03', '10:00', { state: 'promised', note: 'secret', noteToClient: 'We bring the new pump.' });
  await prisma.visitPerson.create({ data: { visitId: promised.id, personId: vera.id, clientId: alder.clientId, name: 'Vera' } });
  const yearly = await job(alder, { title: 'Yearly service', kind: 'service', visitId: first.id }, 1);
  await job(birch, { title: 'Two services', kind: 'service', visitId: second.id }, 1);
  await job(alder, { title: 'Valve changed', kind: 'service', state: 'finished', finishedAt: new Date('2026-11-26T10:00:00Z') });
  const broken = await job(birch, { title: 'Less pressure', kind: 'breakdown' });
  const { id: skidId, clientId } = birch;
  await prisma.breakdown.create({ data: { jobId: broken.id, clientId, skidId, severity: 'less water', source: 'client', noticedAt: WEDNESDAY } });
  await prisma.jobReport.create({
    data: {
      id: '0192f0c1-2345-7678-9abc-def012345678',
      jobId: yearly.id,
      clientId: alder.clientId,
      byId: technicianId,
      by: 'Tarek',
      startedAt: WEDNESDAY,
      finishedAt: WEDNESDAY,
      state: 'second',
      minutes: 10,
      content: {},
      contentHash: 'x',
      summary: {},
    },
  });
  const tank = await prisma.tank.create({
    data: { clientId: alder.clientId, skidId: alder.id, name: 'Acid tank', chemical: 'citric acid', shape: 'drum', heightM: 1, capacityL: 200 },
  });
  const cover = {
    kind: 'cover',
    earlyDays: 5,
    likelyDays: 8,
    lateDays: 12,
    runOutOn: day('2026-12-03'),
    reason: 'By use',
    dataUsed: [],
    computedAt: WEDNESDAY,
  };
  await prisma.tankCover.create({ data: { tankId: tank.id, clientId: alder.clientId, ...cover } });
}

/** The tank that may run short from 30 Nov is the client's own affair: 40 L are left in it, of 200. */
async function clientFillsTheTank(): Promise<void> {
  const { prisma } = database;
  const { id } = await prisma.tank.findFirstOrThrow({ where: { name: 'Acid tank' } });
  await prisma.tank.update({ where: { id }, data: { suppliedBy: 'client' } });
  await prisma.tankCover.update({ where: { tankId: id }, data: { volumeL: 40, dailyUseL: 5 } });
}

async function stock(code: string, quantity: number): Promise<void> {
  const { prisma } = database;
  const item = await prisma.item.findFirstOrThrow({ where: { code } });
  const place = await prisma.place.upsert({ where: { name: 'Main store' }, create: { name: 'Main store', kind: 'store' }, update: {} });
  const post = { id: item.id, kind: 'receive', at: WEDNESDAY, byId: technicianId, by: 'T', requestHash: 'x' };
  await prisma.stockPost.create({ data: { ...post, moves: { create: { itemId: item.id, quantity, toPlaceId: place.id } } } });
}
