import { UTCDate } from '@date-fns/utc';
import { type Day, dayPlus, daysBetween } from '../../../shared/day.js';
import type { PersonToPlan, PlanInput, SiteToPlan, WorkToPlan } from '../planner/plan-input.js';
import { travelTable } from '../travel/travel-table.js';
import { visitMinutes } from '../visit-minutes.js';
import { dayCosts } from './day-costs.js';
import { USUAL_ROADS } from './estimated-way.js';
import type { PersonFacts, PlanFacts, SiteFacts, VisitFacts, WorkFacts } from './facts.js';

/** Of leaving work out, in minutes of work: far above any day that comes late within a plan where it cannot wait. */
const LEFT_OUT = 1500;
const URGENT_LEFT_OUT = 20_000;
const PROMISE_LEFT_OUT = 1_000_000;
const NIGHT_MINUTES = 120;
const DAY_MINUTES = 24 * 60;

/** What the search is given, and what no search can place. */
export interface InputFromFacts {
  readonly input: PlanInput;
  /** Of each piece of work in the input */
  readonly work: readonly (WorkFacts | (VisitFacts & { readonly kind: 'visit' }))[];
  readonly cannot: readonly {
    readonly kind: WorkFacts['kind'] | 'visit';
    readonly id: string;
    readonly siteId: string;
    readonly text: string;
    readonly reason: string;
  }[];
}

/**
 * Makes the input of the search from what is known of people, sites, work and visits. Visits keep their day, time and people. The way into a site takes the extra minutes of
 * the site, once for all work there in a row. Days are days at the sites, whatever their zones.
 */
export function inputFromFacts({ firstDay, days, people, sites, work, visits, travel }: PlanFacts): InputFromFacts {
  const siteAt = new Map(sites.map(({ id }, at) => [id, at]));
  const personAt = new Map(people.map(({ id }, at) => [id, at]));
  const cannot: InputFromFacts['cannot'][number][] = [];
  const placed: { work: WorkToPlan; from: InputFromFacts['work'][number] }[] = [];
  for (const visit of visits) {
    const goes = visit.personIds.flatMap((id) => personAt.get(id) ?? []);
    const site = siteAt.get(visit.siteId);
    const { id, siteId, text, personIds } = visit;
    const reason = site === undefined ? NO_POSITION : goes.length < personIds.length ? 'of somebody who goes neither home nor shifts are known' : null;
    if (site === undefined || reason !== null) cannot.push({ kind: 'visit', id, siteId, text, reason: reason ?? NO_POSITION });
    else if (goes.length > 2) cannot.push({ kind: 'visit', id, siteId, text, reason: 'more than two people go' });
    else placed.push({ work: visitToPlan(visit, site, goes, firstDay, days), from: { ...visit, kind: 'visit' } });
  }
  for (const item of work) {
    const site = siteAt.get(item.siteId);
    const { kind, id, siteId, text } = item;
    const crew = Math.max(site === undefined || sites[site]?.mayWorkAlone === true ? 1 : 2, ...item.tasks.map((task) => task.crew));
    if (site === undefined) cannot.push({ kind, id, siteId, text, reason: NO_POSITION });
    else if (crew > 2) cannot.push({ kind, id, siteId, text, reason: `${crew} people are needed, and no more than two are planned together` });
    else placed.push({ work: workToPlan(item, site, crew === 2 ? 2 : 1, firstDay, days), from: item });
  }
  const input: PlanInput = {
    days,
    people: people.map((person) => personToPlan(person, firstDay, days)),
    sites: sites.map((site) => siteToPlan(site, firstDay, days)),
    work: placed.map((each) => each.work),
    travel: withTheWayIn(travel ?? travelTable([...people, ...sites], { usual: USUAL_ROADS, regions: [], overrides: [] }, null), people.length, sites),
    prices: { minute: 1, overtimeMinute: 1, km: 0, change: 40 },
  };
  return { input, work: placed.map(({ from }) => from), cannot };
}

const NO_POSITION = 'the site has no position: enter its latitude and longitude';

const weekday = (day: Day) => new UTCDate(`${day}T00:00:00Z`).getDay() || 7;
const daysFrom = (firstDay: Day, days: number) => Array.from({ length: days }, (_, at) => dayPlus(firstDay, at));

function minutesOfDay(time: string): number {
  const [hour = 0, minute = 0] = time.split(':').map(Number);
  return hour * 60 + minute;
}

function personToPlan(
  { name, workDays, daysOff, skills, mostNights, shiftFrom, regularUntil, shiftUntil }: PersonFacts,
  firstDay: Day,
  days: number,
): PersonToPlan {
  const shift = { from: minutesOfDay(shiftFrom), until: minutesOfDay(shiftUntil), regularUntil: minutesOfDay(regularUntil) };
  const isOff = (day: Day) => daysOff.some(({ from, until }) => day >= from && day <= until);
  return {
    name,
    shifts: daysFrom(firstDay, days).map((day) => (workDays.includes(weekday(day)) && !isOff(day) ? shift : null)),
    skills: new Map(skills.map(({ skill, lastOn }) => [skill, lastOn === null ? null : daysBetween(firstDay, lastOn)])),
    mostNights,
    nightCost: NIGHT_MINUTES,
  };
}

function siteToPlan({ name, windows }: SiteFacts, firstDay: Day, days: number): SiteToPlan {
  const open = daysFrom(firstDay, days).map((day) => {
    if (windows.length === 0) return [{ from: 0, until: DAY_MINUTES }];
    const own = windows.filter((window) => window.days.includes(weekday(day)));
    return own.map(({ from, until }) => ({ from: minutesOfDay(from), until: minutesOfDay(until) })).sort((one, two) => one.from - two.from);
  });
  return { name, open };
}

function workToPlan({ text, urgent, tasks, ...dates }: WorkFacts, site: number, people: 1 | 2, firstDay: Day, days: number): WorkToPlan {
  return {
    name: text,
    site,
    minutes: Math.max(1, visitMinutes(tasks, people)),
    skills: [...new Set(tasks.flatMap(({ skills }) => skills))],
    people,
    dayCost: Float64Array.from(dayCosts(dates, firstDay, days)),
    unassignedCost: urgent ? URGENT_LEFT_OUT : LEFT_OUT,
    partsFrom: 0,
    promised: null,
    published: null,
  };
}

function visitToPlan({ text, minutes, onDay, startTime }: VisitFacts, site: number, people: readonly number[], firstDay: Day, days: number): WorkToPlan {
  return {
    name: text,
    site,
    minutes,
    // Who goes was decided by people, who know more than the list of skills.
    skills: [],
    people: people.length === 2 ? 2 : 1,
    dayCost: new Float64Array(days),
    unassignedCost: PROMISE_LEFT_OUT,
    partsFrom: 0,
    promised: { people, day: daysBetween(firstDay, onDay), start: minutesOfDay(startTime) },
    published: null,
  };
}

/** Ways between homes and sites; into a site it takes the extra minutes of the site. */
function withTheWayIn({ minutes, km }: PlanInput['travel'], people: number, sites: readonly SiteFacts[]): PlanInput['travel'] {
  const places = people + sites.length;
  const into = (from: number, to: number) => (from === to ? 0 : (sites[to - people]?.extraMinutes ?? 0));
  return { minutes: minutes.map((way, at) => way + into(Math.floor(at / places), at % places)), km };
}
