import { afterAll, beforeAll, describe, expect, test } from '@jest/globals';
import type { NestFastifyApplication } from '@nestjs/platform-fastify';
import type { Api } from '../support/api.js';
import { pointersOf } from '../support/records.js';
import { makeSkids, type SmallSkid, signInAs } from '../support/small-fleet.js';
import { startTestApp } from '../support/test-app.js';
import { signInByName } from '../support/work.js';

let app: NestFastifyApplication;
let manager: Api;
let ada: { api: Api; id: string };
let alder: SmallSkid;

beforeAll(async () => {
  app = await startTestApp();
  manager = await signInAs(app, 'manager');
  ada = await signInByName(app, 'Ada');
  [alder] = (await makeSkids(app, 'Alder', 1)) as [SmallSkid];
});
afterAll(() => app?.close());

const WEEK = {
  latitude: 54.1,
  longitude: -1.7,
  workDays: [5, 1, 2],
  shiftFrom: '07:30',
  regularUntil: '16:00',
  shiftUntil: '18:00',
  mostNights: 2,
  skills: [{ skill: 'Pumps' }, { skill: 'Confined space', lastOn: '2026-12-31' }],
  daysOff: [{ from: '2026-12-24', until: '2026-12-27', reason: 'Leave' }],
  restHours: 11,
  breakMinutes: 30,
  breakFrom: '11:30',
  breakUntil: '14:00',
  onCall: [{ from: '2026-12-07', until: '2026-12-13' }],
};
const putPerson = (version: number, change: object = {}) =>
  manager.put(`/api/planning/people/${ada.id}`, { ...WEEK, ...change }).set('if-match', `"${version}"`);
const putSite = (version: number, body: object) =>
  manager.put(`/api/planning/sites/${alder.siteId}`, { windows: [], extraMinutes: 0, mayWorkAlone: true, ...body }).set('if-match', `"${version}"`);
const person = async () => (await manager.get('/api/planning/people').expect(200)).body.find(({ personId }: { personId: string }) => personId === ada.id);

describe('what planning knows of people', () => {
  test('is nothing until somebody enters it, and is then replaced as a whole', async () => {
    expect(await person()).toMatchObject({ name: 'Ada', latitude: null, workDays: [], version: 0 });
    const saved = (await putPerson(0).expect(200)).body;
    expect(saved).toMatchObject({
      restHours: 11,
      breakMinutes: 30,
      breakFrom: '11:30',
      breakUntil: '14:00',
      overtimeHoursAWeek: null,
      onCall: [{ from: '2026-12-07', until: '2026-12-13' }],
    });
    expect(saved).toMatchObject({ workDays: [1, 2, 5], mostNights: 2, skills: [{ skill: 'Pumps', lastOn: null }, { lastOn: '2026-12-31' }], version: 1 });
    expect(await person()).toEqual(saved);
  });

  test('is not overwritten by somebody who has not read it', async () => {
    const { version } = await person();
    await putPerson(version, { mostNights: 4 }).expect(200);
    await putPerson(version, { mostNights: 1 }).expect(412);
    expect((await person()).mostNights).toBe(4);
  });

  test.each([
    ['a shift that ends before it begins', { regularUntil: '07:00' }, '#/regularUntil'],
    ['overtime that ends before it begins', { shiftUntil: '15:00' }, '#/shiftUntil'],
    ['days off that end before they begin', { daysOff: [{ from: '2026-12-27', until: '2026-12-24', reason: 'Leave' }] }, '#/daysOff/0/until'],
    ['a rest that leaves no room for the day', { restHours: 16 }, '#/restHours'],
    ['a break without its times', { breakUntil: null }, '#/breakUntil'],
    ['a break that is longer than the time for it', { breakMinutes: 45, breakFrom: '12:00', breakUntil: '12:30' }, '#/breakUntil'],
    ['a break outside of the day', { breakMinutes: 30, breakFrom: '06:00', breakUntil: '07:00' }, '#/breakFrom'],
    ['overtime below nothing', { overtimeHoursAWeek: -1 }, '#/overtimeHoursAWeek'],
    ['a week on call that ends before it begins', { onCall: [{ from: '2026-12-13', until: '2026-12-07' }] }, '#/onCall/0/until'],
    ['a skill twice', { skills: [{ skill: 'Pumps' }, { skill: 'Pumps' }] }, '#/skills/1/skill'],
    ['a time that no clock shows', { shiftFrom: '24:10' }, '#/shiftFrom'],
    ['a day that no week has', { workDays: [8] }, '#/workDays'],
  ])('is refused with %s', async (_, change, pointer) => {
    const { version } = await person();
    expect(pointersOf((await putPerson(version, change).expect(400)).body)).toEqual([pointer]);
  });

  test('is a matter of managers, and not kept of clients’ people', async () => {
    await ada.api.get('/api/planning/people').expect(403);
    const { body } = await manager.get('/api/planning/people').expect(200);
    await signInAs(app, 'client', { clientId: alder.clientId });
    expect((await manager.get('/api/planning/people').expect(200)).body).toHaveLength(body.length);
  });
});

describe('what planning knows of sites', () => {
  test('is when people are let in, and what a visit takes beside the work', async () => {
    const windows = [{ days: [1, 2, 3, 4, 5], from: '08:00', until: '15:30' }];
    const saved = (await putSite(0, { windows, extraMinutes: 25, mayWorkAlone: false }).expect(200)).body;
    expect(saved).toMatchObject({ name: 'Alder site', windows, extraMinutes: 25, mayWorkAlone: false, version: 1 });
    expect((await manager.get('/api/planning/sites').expect(200)).body).toContainEqual(saved);
    await putSite(0, {}).expect(412);
  });

  test('is how people get in and whom to call, which the day sheet of a visit tells those who go', async () => {
    const contacts = [{ name: 'Kim Ode', role: 'shift leader', phone: '+44 20 0000', email: null }];
    const ferry = { out: ['12:00', '07:30'], back: ['17:00'], minutes: 40 };
    const access = { noticeDays: 3, inductions: ['Induction Alder'], ferry, openMonths: [6, 5], escort: true, accessNote: 'Gate 2.', contacts };
    const { body } = await putSite(1, access).expect(200);
    expect(body).toMatchObject({ ...access, ferry: { ...ferry, out: ['07:30', '12:00'] }, openMonths: [5, 6], version: 2 });
    const visit = await manager
      .post('/api/visits', { siteId: alder.siteId, onDay: '2026-12-01', startTime: '10:00', personIds: [ada.id], minutes: 60 })
      .expect(201);
    const wayIn = (await ada.api.get(`/api/visits/${visit.body.id}/way-in`).expect(200)).body;
    expect(wayIn.contacts).toEqual(contacts);
    expect(wayIn.access).toContain('By ferry: out 07:30, 12:00, back 17:00; the crossing takes 40 minutes.');
    await ada.api.get(`/api/visits/${alder.siteId}/way-in`).expect(404);
  });

  test.each([
    ['a ferry that leaves before anybody has arrived', { ferry: { out: ['09:00'], back: ['09:30'], minutes: 45 } }, '#/ferry/back'],
    ['a departure at no time', { ferry: { out: ['9'], back: ['17:00'], minutes: 45 } }, '#/ferry/out'],
    ['a contact whom nobody can reach', { contacts: [{ name: 'Kim' }] }, '#/contacts/0/phone'],
    ['a month that no year has', { openMonths: [13] }, '#/openMonths'],
    ['notice of less than no day', { noticeDays: -1 }, '#/noticeDays'],
    ['an induction without a name', { inductions: [''] }, '#/inductions'],
  ])('is refused with %s', async (_, body, pointer) => {
    expect(pointersOf((await putSite(2, body).expect(400)).body)).toEqual([pointer]);
  });

  test('is refused with a window that passes midnight', async () => {
    const windows = [{ days: [1], from: '22:00', until: '02:00' }];
    const { body } = await putSite(1, { windows }).expect(400);
    expect(pointersOf(body)).toEqual(['#/windows/0/until']);
  });
});
