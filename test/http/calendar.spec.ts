import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import ICAL from 'ical.js';
import { Clock, Database } from '../../src/app/index.js';
import { Api } from '../support/api.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';

const NOW = new Date('2026-10-20T08:00:00Z');
const ODD_TITLE = 'Pump, valve; “seal” \\ 💧\nand the long, long story of what else the people of the brewery said about it — Größe 1¾″';

let app: NestFastifyApplication;
let database: Database;
let alder: SmallSkid;
let lima: SmallSkid;
let technician: Api;
let manager: Api;
let client: Api;
let nobody: Api;
const visits: Record<string, string> = {};

beforeAll(async () => {
  app = await startTestApp(undefined, { publicUrl: 'https://skidkeep.example' });
  database = app.get(Database);
  Object.assign(app.get(Clock), { now: () => NOW });
  nobody = Api.of(app);
  [alder] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
  [lima] = (await makeSkids(app, 'Lima', 1, 'America/Lima')) as [SmallSkid];
  technician = await signInAs(app, 'technician');
  manager = await signInAs(app, 'manager');
  client = await signInAs(app, 'client', { clientId: alder.clientId });
  const { id: personId } = (await technician.get('/api/session')).body;
  const { prisma } = database;
  const make = async (name: string, skid: SmallSkid, onDay: string, about: object = {}, mine = true) => {
    const { clientId, siteId, id: skidId } = skid;
    const row = { clientId, siteId, onDay: new Date(`${onDay}T00:00:00Z`), startTime: '09:00', minutes: 150, createdBy: 'T', note: 'secret', ...about };
    const { id } = await prisma.visit.create({ data: row });
    if (mine) await prisma.visitPerson.create({ data: { visitId: id, personId, clientId, name: 'A technician' } });
    await prisma.job.create({ data: { clientId, siteId, skidId, visitId: id, kind: 'service', title: ODD_TITLE, createdBy: 'T' } });
    visits[name] = id;
  };
  await make('before', alder, '2026-10-24', { state: 'promised', promisedAt: NOW, noteToClient: 'Please, keep the door open; thank you.' });
  await make('after', alder, '2026-10-26');
  await make('gap', alder, '2027-03-28', { startTime: '02:30' });
  await make('far', lima, '2026-10-26', { startTime: '20:00' });
  await make('off', alder, '2026-10-27', { state: 'called off' });
  await make('of another', alder, '2026-10-28', {}, false);
});
afterAll(() => app?.close());

const addressOf = async (by: Api): Promise<string> => (await by.post('/api/me/calendar-addresses', { name: 'Telephone' }).expect(201)).body.path;

interface ReadEvent {
  readonly start: string;
  readonly minutes: number;
  readonly sequence: number;
  readonly status: string | null;
  readonly component: ICAL.Component;
}

/** What an independent reader makes of the calendar, by the names of the visits. */
async function read(path: string): Promise<{ text: string; events: Record<string, ReadEvent> }> {
  const { text, headers } = await nobody.get(path).expect(200);
  expect(headers['content-type']).toBe('text/calendar; charset=utf-8');
  const calendar = new ICAL.Component(ICAL.parse(text));
  const names = Object.fromEntries(Object.entries(visits).map(([name, id]) => [`visit-${id}@skidkeep`, name]));
  const events = calendar.getAllSubcomponents('vevent').map((component): [string, ReadEvent] => {
    const event = new ICAL.Event(component);
    const status = component.getFirstPropertyValue('status');
    return [
      names[event.uid] ?? event.uid,
      {
        start: event.startDate.toJSDate().toISOString(),
        minutes: event.duration.toSeconds() / 60,
        sequence: event.sequence,
        status: status === null ? null : String(status),
        component,
      },
    ];
  });
  return { text, events: Object.fromEntries(events) };
}

describe('a calendar read by another program', () => {
  test('has the moments of the sites’ clocks, before and after they change, and in other zones', async () => {
    const { events } = await read(await addressOf(technician));
    expect(Object.keys(events).sort()).toEqual(['after', 'before', 'far', 'gap', 'off']);
    expect(events.before).toMatchObject({ start: '2026-10-24T07:00:00.000Z', minutes: 150 });
    expect(events.after).toMatchObject({ start: '2026-10-26T08:00:00.000Z', minutes: 150 });
    expect(events.far?.start).toBe('2026-10-27T01:00:00.000Z');
    expect(events.gap?.start).toBe('2027-03-28T01:30:00.000Z'); // 02:30 is left out that night: 03:30 it is
  });

  test('has the words as they were written, in lines as the standard wants them', async () => {
    const { text, events } = await read(await addressOf(technician));
    const event = events.before === undefined ? undefined : new ICAL.Event(events.before.component);
    expect(event?.summary).toBe('Alder site: 1 job');
    expect(event?.location).toBe('Alder site, Alder');
    expect(event?.description).toContain(ODD_TITLE);
    expect(event?.description).toContain('Please, keep the door open; thank you.');
    expect(event?.description).toContain('09:00 at the site (Europe/Madrid)');
    for (const line of text.split('\r\n')) {
      expect(Buffer.byteLength(line)).toBeLessThanOrEqual(75);
      expect(line).not.toMatch(/[\n\r]/);
    }
  });

  test('follows a visit that is shifted, and one that is called off', async () => {
    const path = await addressOf(technician);
    const before = (await read(path)).events;
    expect([before.before?.status, before.after?.status, before.off?.status]).toEqual(['CONFIRMED', 'TENTATIVE', 'CANCELLED']);
    const data = { onDay: new Date('2026-11-02T00:00:00Z'), version: { increment: 1 } };
    await database.prisma.visit.update({ where: { id: String(visits.after) }, data });
    const { events } = await read(path);
    expect(events.after?.start).toBe('2026-11-02T08:00:00.000Z');
    expect(events.after?.sequence).toBe((before.after?.sequence ?? 0) + 1);
  });

  test('shows a manager all visits, and a client what was promised to them, without the department’s notes', async () => {
    expect(Object.keys((await read(await addressOf(manager))).events).sort()).toEqual(['after', 'before', 'far', 'gap', 'of another', 'off']);
    const { events, text } = await read(await addressOf(client));
    expect(Object.keys(events)).toEqual(['before']);
    expect(text).not.toMatch(/secret|Lima/);
  });

  test('is made with as many queries for many visits as for one', async () => {
    const path = await addressOf(manager);
    const { id: _, ...row } = await database.prisma.visit.findUniqueOrThrow({ where: { id: String(visits.far) } });
    const { pool } = database;
    const query = pool.query.bind(pool);
    const count = async () => {
      let queries = 0;
      const counting = (...args: unknown[]) => {
        queries += 1;
        return Reflect.apply(query, pool, args);
      };
      Object.assign(pool, { query: counting });
      await nobody.get(path).expect(200);
      Object.assign(pool, { query });
      return queries;
    };
    const few = await count();
    await database.prisma.visit.createMany({ data: Array.from({ length: 40 }, (_, n) => ({ ...row, no: 1000 + n })) });
    expect(await count()).toBe(few);
    expect(few).toBeGreaterThan(0);
    expect(few).toBeLessThan(5);
    await database.prisma.visit.deleteMany({ where: { no: { gte: 1000 } } });
  });
});

describe('the address of a calendar', () => {
  test('is told once, kept as a hash, and shows when it was last read', async () => {
    const path = await addressOf(technician);
    expect(path).toMatch(/^\/api\/calendar\/[\w-]{43}\.ics$/);
    const token = path.slice('/api/calendar/'.length, -'.ics'.length);
    await nobody.get(path).expect(200);
    const { body, text } = await technician.get('/api/me/calendar-addresses').expect(200);
    expect(body.items.at(-1)).toEqual({ id: expect.any(String), name: 'Telephone', createdAt: NOW.toISOString(), lastReadAt: NOW.toISOString() });
    expect(text).not.toContain(token);
    expect(JSON.stringify(await database.prisma.calendarAddress.findMany())).not.toContain(token);
  });

  test('shows nothing once it is withdrawn, and only its person withdraws it', async () => {
    const { body } = await technician.post('/api/me/calendar-addresses', { name: 'Old laptop' }).expect(201);
    await manager.delete(`/api/me/calendar-addresses/${body.address.id}`).expect(404);
    await nobody.get(body.path).expect(200);
    await technician.delete(`/api/me/calendar-addresses/${body.address.id}`).expect(204);
    const refused = await nobody.get(body.path).expect(404);
    expect(refused.body).toMatchObject({ code: 'notices/no-such-calendar', title: expect.stringContaining('Make a new address') });
    expect(refused.text).not.toContain(body.path.slice(14, 40));
    expect((await technician.get('/api/me/calendar-addresses')).body.items.map(({ name }: { name: string }) => name)).not.toContain('Old laptop');
  });

  test.each(['nothing.ics', '%00.ics', `${'x'.repeat(43)}.ics`, `${'x'.repeat(43)}`, '..%2f..%2fetc.ics'])('that is guessed (%s) is none', async (file) => {
    await nobody.get(`/api/calendar/${file}`).expect(404);
  });

  test('ends with its person', async () => {
    const other = await signInAs(app, 'technician');
    const path = await addressOf(other);
    const { id } = (await other.get('/api/session')).body;
    await database.prisma.person.update({ where: { id }, data: { endedAt: NOW } });
    await nobody.get(path).expect(404);
  });

  test('needs a name, and there are ten at most', async () => {
    await client.post('/api/me/calendar-addresses', { name: ' ' }).expect(400);
    for (let n = 1; n < 10; n++) await addressOf(client);
    expect((await client.post('/api/me/calendar-addresses', { name: 'One more' }).expect(409)).body.title).toContain('Withdraw one');
  });
});
