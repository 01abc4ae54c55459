import { Injectable } from '@nestjs/common';
import { Database, EditedMeanwhile, faultIn, NotFound, viewOf } from '../../app/index.js';
import { accessOf, accessToStore, ferryView } from './access/access.js';
import {
  AccessWindowView,
  DaysOffView,
  OnCallView,
  type PersonPlanningDto,
  PersonPlanningView,
  type SitePlanningDto,
  SitePlanningView,
  SkillView,
} from './planning.dto.js';
import {
  lockPersonToSend,
  lockSiteToVisit,
  type PersonToRead,
  peopleToSend,
  type SiteToRead,
  sitesToVisit,
  writePerson,
  writeSite,
} from './planning-data.repository.js';

/** What planning must know of people and sites. */
@Injectable()
export class PlanningData {
  constructor(private readonly database: Database) {}

  async people(): Promise<PersonPlanningView[]> {
    return (await peopleToSend(this.database.prisma)).map(personView);
  }

  replacePerson(id: string, version: number, input: PersonPlanningDto): Promise<PersonPlanningView> {
    checkPerson(input);
    return this.database.write(async (tx) => {
      const person = await lockPersonToSend(tx, id);
      if (person === null) throw new NotFound('manager or technician', id);
      checkVersion(person.planning, version, person.name);
      const { skills: able, daysOff: off, workDays: days, restHours = null, overtimeHoursAWeek = null, onCall: weeks = [], ...others } = input;
      const { breakMinutes = null, breakFrom = null, breakUntil = null, ...rest } = others;
      const hours = { restHours, overtimeHoursAWeek, breakMinutes, breakFrom, breakUntil };
      const skills = able.map(({ skill, lastOn = null }) => ({ skill, lastOn }));
      const daysOff = off.map(({ from, until, reason }) => ({ from, until, reason }));
      const onCall = weeks.map(({ from, until }) => ({ from, until }));
      await writePerson(tx, id, { ...rest, ...hours, skills, daysOff, onCall, workDays: inOrder(days) });
      return personView((await lockPersonToSend(tx, id)) ?? person);
    });
  }

  async sites(): Promise<SitePlanningView[]> {
    return (await sitesToVisit(this.database.prisma)).map(siteView);
  }

  replaceSite(id: string, version: number, input: SitePlanningDto): Promise<SitePlanningView> {
    for (const [at, { from, until }] of input.windows.entries()) {
      if (until <= from) throw faultIn(`windows/${at}/until`, `must be later than ${from}: a window that passes midnight is entered as two`);
    }
    const access = accessToStore(input);
    return this.database.write(async (tx) => {
      const site = await lockSiteToVisit(tx, id);
      if (site === null) throw new NotFound('site', id);
      checkVersion(site.planning, version, site.name);
      const { windows: open, extraMinutes, mayWorkAlone } = input;
      const windows = open.map(({ days, from, until }) => ({ days: inOrder(days), from, until }));
      await writeSite(tx, id, { ...access, extraMinutes, mayWorkAlone, windows });
      return siteView((await lockSiteToVisit(tx, id)) ?? site);
    });
  }
}

function checkVersion(row: { version: number } | null, seen: number, name: string): void {
  if ((row?.version ?? 0) !== seen)
    throw new EditedMeanwhile(`What planning knows of ${name} was edited after you read it. Read it again, and make your change to that`);
}

function checkPerson(input: PersonPlanningDto): void {
  const { shiftFrom, regularUntil, shiftUntil, daysOff, skills, restHours, onCall = [] } = input;
  checkBreak(input);
  if (regularUntil <= shiftFrom) throw faultIn('regularUntil', `must be later than the beginning of the shift, ${shiftFrom}`);
  if (shiftUntil < regularUntil) throw faultIn('shiftUntil', `must not be before ${regularUntil}, from when on it is overtime`);
  for (const [at, { from, until }] of daysOff.entries()) if (until < from) throw faultIn(`daysOff/${at}/until`, `must not be before ${from}`);
  for (const [at, { from, until }] of onCall.entries()) if (until < from) throw faultIn(`onCall/${at}/until`, `must not be before ${from}`);
  const mostRest = DAY_HOURS - (hoursOf(regularUntil) - hoursOf(shiftFrom));
  if ((restHours ?? 0) > mostRest)
    throw faultIn(
      'restHours',
      `must leave room for a day from ${shiftFrom} to ${regularUntil}: enter ${Math.floor(mostRest * 10) / 10} at most, or shorten the day`,
    );
  for (const [at, { skill }] of skills.entries()) {
    if (skills.findIndex((other) => other.skill === skill) < at) throw faultIn(`skills/${at}/skill`, `"${skill}" stands there twice: leave one out`);
  }
}

function checkBreak({ breakMinutes = null, breakFrom = null, breakUntil = null, shiftFrom, shiftUntil }: PersonPlanningDto): void {
  const entries = { breakMinutes, breakFrom, breakUntil };
  const empty = Object.entries(entries).find(([, value]) => value === null)?.[0];
  if (breakMinutes === null || breakFrom === null || breakUntil === null) {
    if (Object.values(entries).every((value) => value === null) || empty === undefined) return;
    throw faultIn(empty, 'a break has its minutes and the two times between which it is taken: enter all three, or none of them');
  }
  const most = Math.round((hoursOf(breakUntil) - hoursOf(breakFrom)) * 60);
  if (most < breakMinutes) throw faultIn('breakUntil', `must leave room for ${breakMinutes} minutes after ${breakFrom}: there are ${Math.max(0, most)}`);
  if (breakFrom < shiftFrom || breakUntil > shiftUntil)
    throw faultIn(breakFrom < shiftFrom ? 'breakFrom' : 'breakUntil', `must lie within the day, from ${shiftFrom} to ${shiftUntil}`);
}

const DAY_HOURS = 24;

function hoursOf(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour + minute / 60;
}

function personView({ id: personId, name, planning }: PersonToRead): PersonPlanningView {
  const {
    latitude = null,
    longitude = null,
    workDays = [],
    shiftFrom = null,
    regularUntil = null,
    shiftUntil = null,
    mostNights = 0,
    restHours = null,
    overtimeHoursAWeek = null,
    breakMinutes = null,
    breakFrom = null,
    breakUntil = null,
    version = 0,
  } = planning ?? {};
  const skills = ((planning?.skills ?? []) as unknown as SkillView[]).map((skill) => viewOf(SkillView, skill));
  const daysOff = ((planning?.daysOff ?? []) as unknown as DaysOffView[]).map((days) => viewOf(DaysOffView, days));
  const onCall = ((planning?.onCall ?? []) as unknown as OnCallView[]).map((days) => viewOf(OnCallView, days));
  return viewOf(PersonPlanningView, {
    personId,
    name,
    latitude,
    longitude,
    workDays,
    shiftFrom,
    regularUntil,
    shiftUntil,
    mostNights,
    skills,
    daysOff,
    restHours,
    overtimeHoursAWeek,
    breakMinutes,
    breakFrom,
    breakUntil,
    onCall,
    version,
  });
}

function siteView({ id: siteId, name, timeZone, latitude, longitude, client, planning }: SiteToRead): SitePlanningView {
  const { extraMinutes = 0, mayWorkAlone = true, version = 0 } = planning ?? {};
  const windows = ((planning?.windows ?? []) as unknown as AccessWindowView[]).map((window) => viewOf(AccessWindowView, window));
  const { ferry, contacts, ...access } = accessOf(planning);
  const where = { siteId, name, clientName: client.name, timeZone, latitude, longitude };
  const ways = { ...access, ferry: ferryView(ferry), contacts: [...contacts] };
  return viewOf(SitePlanningView, { ...where, windows, extraMinutes, mayWorkAlone, ...ways, version });
}

const inOrder = (days: readonly number[]) => days.toSorted((a, b) => a - b);
