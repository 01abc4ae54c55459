import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, beforeEach, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import { addMinutes } from 'date-fns/addMinutes';
import { Clock, Database } from '../../src/app/index.js';
import { JobHooks } from '../../src/jobs/index.js';
import { NoticeRound } from '../../src/notices/notice-round.js';
import type { Api } from '../support/api.js';
import { MailServer, toOf } from '../support/mail-server.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const server = new MailServer();
const START = new Date('2026-11-25T15:00:00Z'); // afternoon: no digest is due in Madrid
let app: NestFastifyApplication;
let database: Database;
let manager: Api;
let technician: Api;
let client: Api;
let alder: SmallSkid;

beforeAll(async () => {
  await server.start();
  app = await startTestApp(undefined, { mail: { url: server.url, from: 'Skidkeep <service@company.example>' }, publicUrl: 'https://skidkeep.example' });
  database = app.get(Database);
  [alder] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  manager = await signInAs(app, 'manager');
  technician = await signInAs(app, 'technician');
  client = await signInAs(app, 'client', { clientId: alder.clientId });
  await signInAs(app, 'storekeeper');
  for (const role of ['manager', 'technician', 'client', 'storekeeper']) {
    await database.prisma.person.updateMany({ where: { role }, data: { email: `${role}@company.example`, passwordHash: 'set' } });
  }
  await database.prisma.person.create({ data: { name: 'Not in yet', email: 'invited@company.example', role: 'manager' } });
});
afterAll(async () => {
  await app?.close();
  await server.stop();
});
beforeEach(async () => {
  at(START);
  await database.prisma.mail.deleteMany();
  await database.prisma.job.updateMany({ data: { state: 'dropped' } });
  server.taken();
});

const at = (now: Date) => Object.assign(app.get(Clock), { now: () => now });
const round = () => app.get(NoticeRound).now();
const minutesLater = (minutes: number) => at(addMinutes(START, minutes));
const addresses = () => server.taken().map(toOf).sort();

async function breakDown(severity: string, words: { title?: string; request?: string } = {}): Promise<string> {
  const { id: skidId, clientId, siteId } = alder;
  const about = { skidId, clientId, siteId, kind: 'breakdown', title: 'Pump stopped', request: 'It hums, and\r\nno water comes.', ...words };
  const { id } = await database.prisma.job.create({ data: { ...about, createdBy: 'T', createdAt: START } });
  await database.prisma.breakdown.create({ data: { jobId: id, clientId, skidId, severity, source: 'client', noticedAt: START } });
  return id;
}

describe('a proposed day', () => {
  const answer = async (answered: 'confirmed' | 'declined', answeredAt = START): Promise<string> => {
    const { clientId, siteId } = alder;
    const about = { clientId, siteId, startTime: '08:00', minutes: 60 };
    const onDay = new Date('2026-12-01');
    const { id: visitId } = await database.prisma.visit.create({ data: { ...about, onDay, createdBy: 'T' } });
    const said = { answer: answered, reason: answered === 'declined' ? 'A\nshutdown' : '', wishedDays: [], answeredAt, answeredBy: 'Lea' };
    await database.prisma.visitAnswer.create({ data: { ...about, ...said, visitId, onDay, proposedAt: START, proposedBy: 'T' } });
    return visitId;
  };

  test('that a client declines is told to managers at once, once, and again only when it is answered otherwise', async () => {
    await answer('confirmed');
    const visitId = await answer('declined');
    await round();
    await round();
    const [mail, ...others] = server.taken();
    expect(others).toEqual([]);
    expect(mail === undefined ? '' : toOf(mail)).toBe('manager@company.example');
    expect(mail?.subject).toBe('Skidkeep: 1 Dec does not suit');
    expect(mail?.text).toMatch(/^Visit \d+, Alder site \(Alder\), Tuesday 1 Dec, 08:00: does not suit \(Lea\): A shutdown\./);
    expect(mail?.text).toContain(`https://skidkeep.example/visits/${visitId}`);
    minutesLater(5);
    await database.prisma.visitAnswer.updateMany({ where: { visitId }, data: { answeredAt: addMinutes(START, 4), reason: 'Nobody is there' } });
    await round();
    expect(server.taken().map(({ text }) => text?.includes('Nobody is there'))).toEqual([true]);
    await database.prisma.visitAnswer.updateMany({ where: { visitId }, data: { answeredAt: addMinutes(START, 5), closedAt: addMinutes(START, 5) } });
    await round();
    expect(server.taken()).toEqual([]);
  });
});

describe('what cannot wait', () => {
  test('is told at once to managers, and to technicians who chose it, and to nobody else', async () => {
    const jobId = await breakDown('danger');
    await round();
    const [mail, ...others] = server.taken();
    expect(others).toEqual([]);
    expect(mail === undefined ? '' : toOf(mail)).toBe('manager@company.example');
    expect(mail?.from?.text).toBe('"Skidkeep" <service@company.example>');
    expect(mail?.subject).toBe('Danger to people or water: Alder 1');
    expect(mail?.text).toContain(
      'Danger to people or water at Alder 1, Alder site (Alder).\nNoticed 25 Nov 2026, 16:00 (Europe/Madrid).\nPump stopped\nIt hums, and no water comes.',
    );
    expect(mail?.text).toContain(`https://skidkeep.example/jobs/${jobId}`);
    expect(mail?.headers.get('auto-submitted')).toBe('auto-generated');
    expect((await database.prisma.breakdown.findUniqueOrThrow({ where: { jobId } })).toldAt).toEqual(START);

    await technician.put('/api/me/notices', { digest: 'off', hour: 7, timeZone: 'Europe/Madrid', atOnce: true }).expect(200);
    await breakDown('no water');
    await round();
    expect(addresses()).toEqual(['manager@company.example', 'technician@company.example', 'technician@company.example']);
    await technician.put('/api/me/notices', { digest: 'off', hour: 7, timeZone: 'Europe/Madrid', atOnce: false }).expect(200);
  });

  test('is told once, and again each half hour until somebody takes it', async () => {
    const jobId = await breakDown('no water');
    await round();
    await round();
    minutesLater(29);
    await round();
    expect(server.taken().map(({ subject }) => subject)).toEqual(['No water: Alder 1']);
    minutesLater(30);
    await round();
    expect(server.taken().map(({ subject }) => subject)).toEqual(['No water: Alder 1 (still open)']);
    await database.prisma.breakdown.update({ where: { jobId }, data: { takenAt: START, takenBy: 'Maja' } });
    minutesLater(61);
    await round();
    expect(server.taken()).toEqual([]);
  });

  test('is not told of what can wait, of what is over, and not as another line of the head', async () => {
    await breakDown('less water');
    const over = await breakDown('danger');
    await database.prisma.job.update({ where: { id: over }, data: { state: 'finished' } });
    await round();
    expect(server.taken()).toEqual([]);
    await database.prisma.skid.update({ where: { id: alder.id }, data: { name: 'Alder 1\r\nBcc: all@elsewhere.example' } });
    await breakDown('danger');
    await round();
    const [mail] = server.taken();
    expect(mail?.subject).toBe('Danger to people or water: Alder 1 Bcc: all@elsewhere.example');
    expect(mail?.bcc).toBeUndefined();
    await database.prisma.skid.update({ where: { id: alder.id }, data: { name: 'Alder 1' } });
  });
});

describe('a mail server that is down', () => {
  const one = async () => (await manager.get('/api/notices').expect(200)).body.items[0];

  test('holds up nothing: messages wait, say why, and go out when it is back', async () => {
    await server.stop();
    await manager.post('/api/notices/trial').expect(202);
    await round();
    const waiting = await one();
    expect(waiting).toMatchObject({ to: 'manager@company.example', kind: 'trial', state: 'waiting', tries: 1, sentAt: null });
    expect(waiting.lastError).toMatch(/ECONNREFUSED/);
    expect(waiting.nextTryAt).toBe(addMinutes(START, 1).toISOString());
    await round(); // its time has not come
    expect((await one()).tries).toBe(1);
    for (const [minutes, pause] of [
      [1, 5],
      [6, 15],
      [21, 60],
      [81, 60],
    ] as const) {
      minutesLater(minutes);
      await round();
      expect((await one()).nextTryAt).toBe(addMinutes(START, minutes + pause).toISOString());
    }
    await server.start();
    minutesLater(141);
    await round();
    expect(addresses()).toEqual(['manager@company.example']);
    expect(await one()).toMatchObject({ state: 'sent', tries: 6, nextTryAt: null, lastError: '' });
  });

  test('makes an old message of a breakdown give way to the newest', async () => {
    await server.stop();
    await breakDown('danger');
    for (const minutes of [0, 30, 60]) {
      minutesLater(minutes);
      await round();
    }
    const { body } = await manager.get('/api/notices?state=given%20up').expect(200);
    expect(body.items.map(({ lastError }: { lastError: string }) => lastError)).toEqual(
      Array.from({ length: 2 }, () => 'A later message about the same took its place'),
    );
    await server.start();
    minutesLater(62);
    await round();
    expect(server.taken()).toHaveLength(1);
  });

  test('is given up for a message after two days', async () => {
    await server.stop();
    await manager.post('/api/notices/trial').expect(202);
    await round();
    minutesLater(48 * 60 + 1);
    await round();
    expect(await one()).toMatchObject({ state: 'given up', lastError: expect.stringMatching(/^Not sent within two days; .*ECONNREFUSED/) });
    await server.start();
    await round();
    expect(server.taken()).toEqual([]);
  });
});

describe('a mail server', () => {
  const write = (count: number, to: (n: number) => string) =>
    database.prisma.mail.createMany({
      data: Array.from({ length: count }, (_, n) => ({
        to: to(n),
        kind: 'digest',
        subject: `No. ${n}`,
        text: 'Text',
        onceKey: randomUUID(),
        createdAt: START,
        nextTryAt: START,
      })),
    });

  test('gets each message once, however many workers send at once', async () => {
    await write(24, (n) => `person${n}@company.example`);
    await Promise.all([round(), round(), round(), round()]);
    const subjects = server.taken().map(({ subject }) => subject);
    expect(subjects).toHaveLength(24);
    expect(new Set(subjects).size).toBe(24);
  });

  test('that knows no such address is not asked again, and the others are served', async () => {
    await write(3, (n) => (n === 1 ? 'unknown@company.example' : `person${n}@company.example`));
    await round();
    expect(addresses()).toEqual(['person0@company.example', 'person2@company.example']);
    const { body } = await manager.get('/api/notices?state=given%20up').expect(200);
    expect(body.items).toMatchObject([{ to: 'unknown@company.example', tries: 1, lastError: expect.stringContaining('There is nobody of this name') }]);
  });

  test('is shown with what waits, page by page, to managers alone', async () => {
    await write(3, () => 'a@company.example');
    const first = (await manager.get('/api/notices?limit=2&state=waiting').expect(200)).body;
    expect(first).toMatchObject({ waiting: 3, mailFrom: 'Skidkeep <service@company.example>', toldAtOnce: ['A manager'] });
    const second = (await manager.get(`/api/notices?limit=2&state=waiting&cursor=${first.next}`).expect(200)).body;
    expect(new Set([...first.items, ...second.items].map(({ id }) => id)).size).toBe(3);
    await manager.get('/api/notices?state=lost').expect(400);
    await technician.get('/api/notices').expect(403);
  });
});

describe('each person', () => {
  test('chooses, and gets what is usual before', async () => {
    expect((await manager.get('/api/me/notices').expect(200)).body).toEqual({
      digest: 'daily',
      hour: 7,
      timeZone: 'Europe/Madrid',
      atOnce: true,
      mayBeToldAtOnce: true,
      chosen: false,
      email: 'manager@company.example',
      mailIsSetUp: true,
    });
    expect((await client.get('/api/me/notices').expect(200)).body).toMatchObject({ digest: 'off', atOnce: false, mayBeToldAtOnce: false });
    const choice = { digest: 'weekly', hour: 18, timeZone: 'America/Lima', atOnce: false };
    expect((await client.put('/api/me/notices', choice).expect(200)).body).toMatchObject({ ...choice, chosen: true });
    await client.put('/api/me/notices', { ...choice, digest: 'off' }).expect(200);
  });

  test.each([
    ['an hour that no day has', { hour: 24 }, 'hour'],
    ['no whole hour', { hour: 7.5 }, 'hour'],
    ['a zone that nobody knows', { timeZone: 'Europe/Atlantis' }, 'timeZone'],
    ['a rhythm that is not offered', { digest: 'hourly' }, 'digest'],
    ['no answer', { atOnce: null }, 'atOnce'],
    ['what the role cannot take', { atOnce: true }, 'atOnce'],
  ])('is told what is wrong with %s', async (_, change, field) => {
    const { body } = await client.put('/api/me/notices', { digest: 'daily', hour: 7, timeZone: 'UTC', atOnce: false, ...change }).expect(400);
    expect(body.errors.map(({ pointer }: { pointer: string }) => pointer)).toEqual([`#/${field}`]);
  });
});

describe('a promised visit', () => {
  const weekly = { digest: 'weekly', hour: 7, timeZone: 'Europe/Madrid', atOnce: false };
  const WEDNESDAY = new Date('2026-11-25T06:10:00Z');
  const promise = (onDay: string, state = 'promised') => {
    const { clientId, siteId } = alder;
    return database.prisma.visit.create({ data: { clientId, siteId, onDay: new Date(onDay), startTime: '08:30', minutes: 60, state, createdBy: 'T' } });
  };
  const toClient = () => server.taken().filter((mail) => toOf(mail) === 'client@company.example');

  test('is told to a client’s person with a weekly digest three days before, once, and again when it is shifted', async () => {
    await client.put('/api/me/notices', weekly).expect(200);
    const { id } = await promise('2026-11-28');
    await promise('2026-11-29');
    await promise('2026-11-27', 'planned');
    at(WEDNESDAY);
    await round();
    await round();
    const [mail, ...others] = toClient();
    expect(others).toEqual([]);
    expect(mail?.subject).toBe('Skidkeep: we come on 28 Nov');
    expect(mail?.text).toContain('We promised to come: Saturday 28 Nov, 08:30 (time at the site), Alder site.');
    await database.prisma.visit.update({ where: { id }, data: { onDay: new Date('2026-11-27') } });
    await round();
    expect(toClient().map(({ subject }) => subject)).toEqual(['Skidkeep: we come on 27 Nov']);
  });

  test('is not told at another hour, nor to who chose no digest', async () => {
    await database.prisma.mail.deleteMany();
    await round();
    expect(toClient()).toEqual([]);
    await client.put('/api/me/notices', { ...weekly, digest: 'off' }).expect(200);
    at(WEDNESDAY);
    await round();
    expect(toClient()).toEqual([]);
    await database.prisma.visit.deleteMany();
  });
});

test('without a mail server notices are kept and shown, and nothing fails', async () => {
  const quiet = await startTestApp();
  try {
    const alone = await signInAs(quiet, 'manager');
    await alone.post('/api/notices/trial').expect(202);
    await quiet.get(NoticeRound).now();
    const { body } = await alone.get('/api/notices').expect(200);
    expect(body).toMatchObject({ mailFrom: null, waiting: 1, items: [{ kind: 'trial', state: 'waiting', tries: 0, lastError: '' }] });
  } finally {
    await quiet.close();
  }
});

test('a worker takes up by itself what is asked for, and what is reported and cannot wait', async () => {
  const working = await startTestApp(undefined, { backgroundWork: true, mail: { url: server.url, from: 'service@company.example' } });
  try {
    const alone = await signInAs(working, 'manager');
    const { prisma } = working.get(Database);
    await prisma.person.updateMany({ data: { email: 'alone@company.example', passwordHash: 'set' } });
    await alone.post('/api/notices/trial').expect(202);
    expect(await soon()).toEqual(['Skidkeep: the mail server works']);
    const [birch] = (await makeSkids(working, 'Birch', 1)) as [SmallSkid];
    const { id: skidId, clientId, siteId } = birch;
    await working.get(Database).write(async (tx) => {
      const { id } = await tx.job.create({ data: { skidId, clientId, siteId, kind: 'breakdown', title: 'No flow', createdBy: 'T' } });
      await tx.breakdown.create({ data: { jobId: id, clientId, skidId, severity: 'no water', source: 'client', noticedAt: new Date() } });
      await working.get(JobHooks, { strict: false }).tellChanged(tx, { id, skidId, visitId: null });
    });
    expect(await soon()).toEqual(['No water: Birch 1']);
  } finally {
    await working.close();
  }
});

/** The subjects of what comes within some seconds: less than the minute after which a round begins by itself. */
async function soon(): Promise<(string | undefined)[]> {
  for (let tries = 0; tries < 150 && server.received.length === 0; tries++) await new Promise((done) => setTimeout(done, 200));
  return server.taken().map(({ subject }) => subject);
}
