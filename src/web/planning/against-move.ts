import type { Schemas } from '../api/client.js';
import { planWords } from '../words/plan.js';
import { clockOf, minutesOf, staysOf, type Tour } from './drawing/tour-geometry.js';
import { againstWay } from './way-there.js';
import { weekdayNo } from './weekday-no.js';

/** Another day, time or people for work of a plan. */
export interface Wanted {
  readonly siteId: string;
  readonly day: string;
  readonly startTime: string;
  readonly minutes: number;
  readonly personIds: readonly string[];
  /** Of the work itself, which is not in its own way */
  readonly stopIds: readonly string[];
}

export interface PlanningFacts {
  readonly people: readonly Schemas['PersonPlanningView'][];
  readonly sites: readonly Schemas['SitePlanningView'][];
  readonly tours: readonly Tour[];
  readonly today: string;
}

const said = planWords.against;

/** What speaks against it, in words: hours and days off of people, hours of the site and how people get in, other work of the plan. Ways are not looked at. */
export function againstMove(wanted: Wanted, { people, sites, tours, today }: PlanningFacts): string[] {
  const start = minutesOf(wanted.startTime);
  const end = start + wanted.minutes;
  const of = wanted.personIds.flatMap((id) => {
    const person = people.find(({ personId }) => personId === id);
    const own = person === undefined ? [] : [...hoursOfPerson(person, wanted.day, start, end)];
    return [...own, ...otherWork(wanted, start, end, id, tours)];
  });
  const site = sites.find(({ siteId }) => siteId === wanted.siteId);
  if (site === undefined) return of;
  const goers = people.filter(({ personId }) => wanted.personIds.includes(personId));
  const way = againstWay(site, goers, wanted.day, start, end, today);
  return [...of, ...hoursOfSite(site, wanted.day, start, end), ...way, ...alone(site, wanted)];
}

function hoursOfPerson(person: Schemas['PersonPlanningView'], day: string, start: number, end: number): string[] {
  const { name, shiftFrom, shiftUntil } = person;
  if (shiftFrom === null || shiftUntil === null) return [said.unknownHours(name)];
  const off = person.daysOff.find(({ from, until }) => day >= from && day <= until);
  if (off !== undefined) return [said.away(name, off.reason)];
  if (!person.workDays.includes(weekdayNo(day))) return [said.noWorkDay(name)];
  return start < minutesOf(shiftFrom) || end > minutesOf(shiftUntil) ? [said.outsideShift(name, shiftFrom, shiftUntil, clockOf(end))] : [];
}

function hoursOfSite({ name, windows }: Schemas['SitePlanningView'], day: string, start: number, end: number): string[] {
  if (windows.length === 0) return [];
  const open = windows.filter(({ days }) => days.includes(weekdayNo(day)));
  if (open.length === 0) return [said.closed(name)];
  const isIn = open.some(({ from, until }) => start >= minutesOf(from) && end <= minutesOf(until));
  return isIn ? [] : [said.outsideHours(name, open.map(({ from, until }) => `${from}–${until}`).join(', '))];
}

function otherWork({ day, stopIds }: Wanted, start: number, end: number, personId: string, tours: readonly Tour[]): string[] {
  const own = tours.filter((tour) => tour.personId === personId && tour.day === day);
  return own.flatMap((tour) =>
    staysOf(tour)
      .filter((stay) => stay.start < end && stay.end > start && !stay.stops.some(({ id }) => stopIds.includes(id)))
      .map((stay) => said.overlaps(tour.personName, clockOf(stay.start), clockOf(stay.end), stay.siteName)),
  );
}

const alone = (site: Schemas['SitePlanningView'], { personIds }: Wanted): string[] =>
  !site.mayWorkAlone && personIds.length === 1 ? [said.alone(site.name)] : [];
