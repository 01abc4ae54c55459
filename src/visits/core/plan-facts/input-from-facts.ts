import { type Day, dayPlus, daysBetween } from '../../../shared/day.js';
import { isAble } from '../planner/build-problem.js';
import { URGENT_FROM } from '../planner/make-room.js';
import type { PersonToPlan, PlanInput, SiteToPlan, WorkToPlan } from '../planner/plan-input.js';
import { travelTable } from '../travel/travel-table.js';
import { waysForPlan } from '../travel/ways-for-plan.js';
import { visitMinutes } from '../visit-minutes.js';
import { boatsOf, isInSeason, openOn } from './access-of-site.js';
import { type CostRow, costRows } from './cost-rows.js';
import { dayCosts, type WorkDates } from './day-costs.js';
import { USUAL_ROADS } from './estimated-way.js';
import { type PersonFacts, type PlacedFacts, type PlanFacts, type SiteFacts, type VisitFacts, type WorkFacts, workKey } from './facts.js';
import { minutesOfDay } from './local-time.js';
import { orderOfWork } from './order-of-work.js';
import { type OvertimeBefore, overtimeBefore } from './overtime-before.js';
import { minutesFor, type PlanRates, pricesOf } from './plan-prices.js';
import { isWithin, shiftsOfPerson, weekNumbers } from './shifts-of-person.js';

/** Of leaving work out, in minutes of work: far above any day that comes late within a plan where it cannot wait. */
const LEFT_OUT = 1500;
const PLANNED_LEFT_OUT = 6000;
const PROMISE_LEFT_OUT = 1_000_000;
/** So many minutes of work a day counts as at most, by what waiting costs: what was planned and what is urgent comes before. */
const WAITING_AT_MOST = 4000;

/** What the search is given, and what no search can place. */
export interface InputFromFacts {
  readonly input: PlanInput;
  /** Of each piece of work in the input */
  readonly work: readonly PlacedFacts[];
  /** Of the people in the input */
  readonly personIds: readonly string[];
  /** Of each person whose overtime has a limit, what was had of it; null: there is no limit */
  readonly overtimeBefore: readonly (OvertimeBefore | null)[];
  /** By which its days were judged */
  readonly dates: readonly WorkDates[];
  readonly cannot: readonly (Pick<PlacedFacts, 'kind' | 'id' | 'siteId' | 'text'> & {
    readonly urgent: boolean;
    readonly promised: boolean;
    readonly reason: string;
  })[];
}

/**
 * Makes the input of the search from what is known of people, sites, work and visits. Visits that stay keep their day, time and people, and so do those whose people have not the skills
 * by their list: whoever sent them knows more. Other visits are shifted where that is worth more than the change. The way into a site takes the extra minutes of the site, once for all
 * work there in a row; ways are in whole minutes, so that all times are. Days are days at the sites, whatever their zones.
 */
export function inputFromFacts({
  firstDay,
  days,
  people,
  sites,
  work,
  visits,
  visitsBefore = [],
  travel,
  earlier,
  rates = null,
  today = firstDay,
}: PlanFacts): InputFromFacts {
  const { night, ...prices } = pricesOf(rates);
  const siteAt = new Map(sites.map(({ id }, at) => [id, at]));
  const personAt = new Map(people.map(({ id }, at) => [id, at]));
  const cannot: InputFromFacts['cannot'][number][] = [];
  const placed: { work: WorkToPlan; from: PlacedFacts; dates: WorkDates }[] = [];
  const ways = travel ?? waysForPlan(travelTable([...people, ...sites], { usual: USUAL_ROADS, regions: [], overrides: [] }, null), people.length, sites);
  const had = people.map((person, home) =>
    (person.overtimeHoursAWeek ?? null) === null ? null : overtimeBefore(person, visitsBefore, (siteId) => wayHome(siteId, home)),
  );
  const goers = people.map((person, at) =>
    personToPlan(person, { firstDay, days, nightCost: night, needed: neededOvertime(person, at), before: had[at]?.minutes ?? 0 }),
  );
  const costRow = costRows(visits.length + work.length, days);
  const numbersOf = (ids: readonly string[]) => ids.flatMap((id) => personAt.get(id) ?? []);
  for (const visit of visits) {
    const goes = numbersOf(visit.personIds);
    const site = siteAt.get(visit.siteId);
    const { id, siteId, text, personIds, promised } = visit;
    const refuse = (reason: string) => cannot.push({ kind: 'visit', id, siteId, text, urgent: false, promised, reason });
    if (site === undefined) refuse(NO_POSITION);
    else if (goes.length < personIds.length) refuse('of somebody who goes neither home nor shifts are known');
    else if (goes.length > 2) refuse('more than two people go');
    else {
      const day = daysBetween(firstDay, visit.onDay);
      const leads = (at: number) => isAble(goers[at] as PersonToPlan, visit.skills, day);
      const dates = datesOfVisit(visit);
      const entry = entryOf(sites[site], today, firstDay);
      const enters = (at: number) => isAble(goers[at] as PersonToPlan, entry.entry, day);
      const shiftable = !visit.stays && goes.some(leads) && goes.every(enters);
      const there = visitToPlan(visit, site, goes, { dates, shiftable, costRow, firstDay, days });
      placed.push({ work: shiftable ? { ...there, ...entry } : there, from: { ...visit, kind: 'visit' }, dates });
    }
  }
  for (const item of work) {
    const site = siteAt.get(item.siteId);
    const { kind, id, siteId, text, urgent } = item;
    const crew = Math.max(site === undefined || sites[site]?.mayWorkAlone === true ? 1 : 2, ...item.tasks.map((task) => task.crew));
    const refuse = (reason: string) => cannot.push({ kind, id, siteId, text, urgent, promised: false, reason });
    if (site === undefined) refuse(NO_POSITION);
    // Who is sent to a breakdown finds a way without the part, or learns there what it takes.
    else if (item.partsMissing !== undefined && !urgent) refuse(`${item.partsMissing} is neither there nor on its way with a day: order it, or have it sent`);
    else if (crew > 2) refuse(`${crew} people are needed, and no more than two are planned together`);
    else {
      const before = earlier?.get(workKey(item));
      const then = before === undefined ? [] : numbersOf(before.personIds);
      const published = before === undefined || then.length === 0 ? null : { people: then, day: daysBetween(firstDay, before.onDay) };
      const dates: WorkDates = { ...datesOf(item), waiting: waitingMinutes(item.waiting, rates) };
      const toDo = workToPlan(item, site, { dates, people: crew === 2 ? 2 : 1, published, personAt, costRow, firstDay, days });
      placed.push({ work: { ...toDo, ...entryOf(sites[site], today, firstDay) }, from: item, dates });
    }
  }
  const { placed: inOrder, refused } = orderOfWork(placed, firstDay, days);
  cannot.push(
    ...refused.map(({ from: { kind, id, siteId, text, ...from }, reason }) => ({
      kind,
      id,
      siteId,
      text,
      urgent: 'urgent' in from && from.urgent,
      promised: false,
      reason,
    })),
  );
  const input: PlanInput = {
    days,
    people: goers,
    sites: sitesToPlan(sites, firstDay, days),
    work: inOrder.map((each) => each.work),
    travel: ways,
    prices,
  };
  return {
    input,
    work: inOrder.map(({ from }) => from),
    personIds: people.map(({ id }) => id),
    overtimeBefore: had,
    dates: inOrder.map(({ dates }) => dates),
    cannot,
  };

  function wayHome(siteId: string, home: number): number | null {
    const site = siteAt.get(siteId);
    return site === undefined ? null : (ways.minutes[(people.length + site) * (people.length + sites.length) + home] as number);
  }

  /** By the number of the day: what visits that stay, with a break that they may have to wait for, and the way home from them take after the regular end. */
  function neededOvertime({ id, regularUntil, breakRule }: PersonFacts, home: number): ReadonlyMap<number, number> {
    const places = people.length + sites.length;
    const needed = new Map<number, number>();
    for (const visit of visits) {
      const site = siteAt.get(visit.siteId);
      if (!visit.stays || site === undefined || !visit.personIds.includes(id)) continue;
      const day = daysBetween(firstDay, visit.onDay);
      const pause = breakRule && visit.startTime < breakRule.until ? breakRule.minutes : 0;
      const back = minutesOfDay(visit.startTime) + visit.minutes + pause + (ways.minutes[(people.length + site) * places + home] as number);
      needed.set(day, Math.max(needed.get(day) ?? 0, back - minutesOfDay(regularUntil)));
    }
    return needed;
  }
}

const entryOf = (site: SiteFacts | undefined, today: Day, firstDay: Day) => ({
  entry: site?.inductions ?? [],
  noticeFrom: daysBetween(firstDay, dayPlus(today, site?.noticeDays ?? 0)),
});

const NO_POSITION = 'the site has no position: enter its latitude and longitude';

const daysFrom = (firstDay: Day, days: number) => Array.from({ length: days }, (_, at) => dayPlus(firstDay, at));

interface Goer {
  readonly firstDay: Day;
  readonly days: number;
  readonly nightCost: number;
  readonly needed: ReadonlyMap<number, number>;
  readonly before: number;
}

function personToPlan(person: PersonFacts, { firstDay, days, nightCost, needed, before }: Goer): PersonToPlan {
  const { name, skills, mostNights, restHours = null, overtimeHoursAWeek = null, breakRule = null, onCall = [] } = person;
  return {
    name,
    shifts: shiftsOfPerson(person, firstDay, days, needed, before),
    skills: new Map(skills.map(({ skill, lastOn }) => [skill, lastOn === null ? null : daysBetween(firstDay, lastOn)])),
    mostNights,
    nightCost,
    restMinutes: restHours === null ? undefined : restHours * 60,
    overtime: overtimeHoursAWeek === null ? undefined : { minutes: overtimeHoursAWeek * 60, weekOf: weekNumbers(firstDay, days), before },
    breakRule: breakRule === null ? undefined : { minutes: breakRule.minutes, from: minutesOfDay(breakRule.from), until: minutesOfDay(breakRule.until) },
    onCall: onCall.length === 0 ? undefined : daysFrom(firstDay, days).map((day) => isWithin(onCall, day)),
  };
}

/** Sites that let people in at the same times share one table of them: there are thousands, and the thread that searches is sent a copy. */
function sitesToPlan(sites: readonly SiteFacts[], firstDay: Day, days: number): SiteToPlan[] {
  const dates = daysFrom(firstDay, days);
  const tables = new Map<string, Omit<SiteToPlan, 'name'>>();
  return sites.map((site) => {
    const { name, windows, ferry, openMonths = [] } = site;
    const key = JSON.stringify([windows, ferry, openMonths]);
    const table = tables.get(key) ?? {
      open: dates.map((day) => openOn(site, day)),
      ...(ferry ? { ferry: boatsOf(ferry) } : {}),
      inSeason: openMonths.length === 0 ? undefined : dates.map((day) => isInSeason(site, day)),
    };
    tables.set(key, table);
    return { name, ...table };
  });
}

const datesOf = ({ earliestOn, bestOn, latestOn }: WorkDates): WorkDates => ({ earliestOn, bestOn, latestOn });

/** As minutes of work, from the cheapest day on; unset where it is not known or no rates weigh it. */
function waitingMinutes(waiting: readonly number[] | undefined, rates: PlanRates | null): readonly number[] | undefined {
  if (waiting === undefined || rates === null) return undefined;
  const least = Math.min(...waiting);
  return waiting.map((money) => Math.min(WAITING_AT_MOST, minutesFor(rates, money - least)));
}

interface Place {
  readonly personAt: ReadonlyMap<string, number>;
  readonly dates: WorkDates;
  readonly people: 1 | 2;
  readonly published: WorkToPlan['published'];
  readonly costRow: CostRow;
  readonly firstDay: Day;
  readonly days: number;
}

function workToPlan(item: WorkFacts, site: number, { dates, people, published, personAt, costRow, firstDay, days }: Place): WorkToPlan {
  const { text, urgent, tasks } = item;
  return {
    name: text,
    site,
    minutes: Math.max(1, visitMinutes(tasks, people)),
    skills: [...new Set(tasks.flatMap(({ skills }) => skills))],
    people,
    dayCost: costRow(dayCosts(dates, firstDay, days)),
    urgent,
    // What waits dearly is left out no sooner than put on its dearest day.
    unassignedCost: urgent ? URGENT_FROM : LEFT_OUT + Math.max(0, ...(dates.waiting ?? [])),
    partsFrom: partsFrom(item.partsFromOn, firstDay, days),
    partsSooner: partsSooner(item, { personAt, firstDay, days }),
    promised: null,
    published,
  };
}

function partsFrom(on: Day | null, firstDay: Day, days: number): number | null {
  const day = on === null ? 0 : Math.max(0, daysBetween(firstDay, on));
  return day < days ? day : null;
}

/** Those whose own vans hold what others must wait for. */
function partsSooner(
  { partsFromOn, partsInVans = [] }: WorkFacts,
  { personAt, firstDay, days }: Pick<Place, 'personAt' | 'firstDay' | 'days'>,
): WorkToPlan['partsSooner'] {
  const anybody = partsFrom(partsFromOn, firstDay, days) ?? days;
  const own = partsInVans.flatMap(({ personId, fromOn }) => {
    const [person, day] = [personAt.get(personId), partsFrom(fromOn, firstDay, days)];
    return person === undefined || day === null || day >= anybody ? [] : [[person, day] as const];
  });
  return own.length === 0 ? undefined : new Map(own);
}

/** Whoever planned it knew why it may be so early. */
const datesOfVisit = ({ earliestOn, latestOn, onDay }: VisitFacts): WorkDates => ({
  earliestOn: earliestOn !== null && earliestOn > onDay ? onDay : earliestOn,
  bestOn: null,
  latestOn,
});

function visitToPlan(
  { text, minutes, skills, promised, partsFromOn, onDay, startTime }: VisitFacts,
  site: number,
  people: readonly number[],
  { dates, shiftable, costRow, firstDay, days }: { dates: WorkDates; shiftable: boolean; costRow: CostRow; firstDay: Day; days: number },
): WorkToPlan {
  const then = { people, day: daysBetween(firstDay, onDay), start: minutesOfDay(startTime) };
  return {
    name: text,
    site,
    minutes,
    // Who goes to a visit that stays was decided by people, who know more than the list of skills.
    skills: shiftable ? skills : [],
    people: people.length === 2 ? 2 : 1,
    dayCost: costRow(shiftable ? dayCosts(dates, firstDay, days) : []),
    unassignedCost: promised ? PROMISE_LEFT_OUT : PLANNED_LEFT_OUT,
    partsFrom: partsFrom(partsFromOn, firstDay, days),
    promised: shiftable ? null : then,
    published: shiftable ? then : null,
  };
}
