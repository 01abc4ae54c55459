import { Injectable } from '@nestjs/common';
import { Clock, Database, faultIn, viewOf } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import type { PersonFacts, SiteFacts } from '../core/plan-facts/facts.js';
import { type InputFromFacts, inputFromFacts } from '../core/plan-facts/input-from-facts.js';
import type { CheckedPlan } from '../core/plan-facts/make-plan.js';
import { reasonInWords } from '../core/plan-facts/reason-in-words.js';
import type { DayTour } from '../core/planner/plan-input.js';
import { Travel } from '../travel/travel.js';
import { duesToPlace, jobsToPlace, visitsToKeep } from './plan-facts.repository.js';
import { PlanSearch } from './plan-search.js';
import { type PersonToRead, peopleToSend, type SiteToRead, sitesToVisit } from './planning-data.repository.js';
import { NotInPlanView, type PlanDto, PlanStopView, PlanTourView, PlanView } from './plans.dto.js';

const USUAL_DAYS = 14;
const USUAL_SECONDS = 3;

/** Makes a plan of what is to be done, from what is stored; seven statements, however much there is. */
@Injectable()
export class Plans {
  constructor(
    private readonly database: Database,
    private readonly search: PlanSearch,
    private readonly travel: Travel,
    private readonly clock: Clock,
  ) {}

  async make({ firstDay: asked, days = USUAL_DAYS, seconds = USUAL_SECONDS, seed = 1 }: PlanDto): Promise<PlanView> {
    const today = this.clock.now().toISOString().slice(0, 10);
    const firstDay = asked ?? dayPlus(today, 1);
    if (firstDay < today) throw faultIn('firstDay', `${firstDay} has passed: plan from ${today} on`);
    const lastDay = dayPlus(firstDay, days - 1);
    const { prisma } = this.database;
    const everybody = await peopleToSend(prisma);
    const people = everybody.flatMap(personFacts);
    const sites = (await sitesToVisit(prisma)).flatMap(siteFacts);
    const work = [...(await jobsToPlace(prisma)), ...(await duesToPlace(prisma, lastDay))];
    const visits = await visitsToKeep(prisma, firstDay, lastDay);
    const { table: travel } = await this.travel.between([...people, ...sites]);
    const facts = inputFromFacts({ firstDay, days, people, sites, work, visits, travel });
    const found = await this.search.run(facts.input, seed, seconds);
    const known = new Set(people.map(({ id }) => id));
    return viewOf(PlanView, {
      firstDay,
      days,
      seed,
      tours: found.plan.tours.map((tour) => tourView(tour, facts, { firstDay, people, sites })),
      notInPlan: notInPlan(found, facts),
      peopleLeftOut: everybody.flatMap(({ id, name }) => (known.has(id) ? [] : [name])),
    });
  }
}

function tourView(
  { person, day, startPlace, endPlace, leave, back, stops }: DayTour,
  { work }: InputFromFacts,
  { firstDay, people, sites }: { firstDay: string; people: readonly PersonFacts[]; sites: readonly SiteFacts[] },
): PlanTourView {
  const near = (place: number) => sites[place - people.length]?.name ?? null;
  return viewOf(PlanTourView, {
    personId: people[person]?.id ?? '',
    personName: people[person]?.name ?? '',
    day: dayPlus(firstDay, day),
    startsNear: near(startPlace),
    endsNear: near(endPlace),
    leaveAt: clockOf(leave),
    backAt: clockOf(back),
    stops: stops.flatMap(({ work: at, arrive, start, end }) => {
      const item = work[at];
      if (item === undefined) return [];
      const { id, kind, text, siteId } = item;
      const siteName = sites.find((site) => site.id === siteId)?.name ?? '';
      return [viewOf(PlanStopView, { id, kind, text, siteId, siteName, arriveAt: clockOf(arrive), startAt: clockOf(start), endAt: clockOf(end) })];
    }),
  });
}

function notInPlan({ plan, reasons }: CheckedPlan, { work, cannot, input }: InputFromFacts): NotInPlanView[] {
  const leftOut = plan.leftOut.flatMap((at, place) => {
    const [item, planned, reason] = [work[at], input.work[at], reasons[place]];
    if (item === undefined || planned === undefined || reason === undefined) return [];
    const { id, kind, text, siteId } = item;
    return [viewOf(NotInPlanView, { id, kind, text, siteId, reason: reasonInWords(reason, planned) })];
  });
  return [...cannot.map((item) => viewOf(NotInPlanView, item)), ...leftOut];
}

function clockOf(minutes: number): string {
  const whole = Math.round(minutes);
  return `${String(Math.floor(whole / 60)).padStart(2, '0')}:${String(whole % 60).padStart(2, '0')}`;
}

function personFacts({ id, name, planning }: PersonToRead): PersonFacts[] {
  if (planning === null) return [];
  const { latitude, longitude, workDays, shiftFrom, regularUntil, shiftUntil, mostNights } = planning;
  const skills = planning.skills as unknown as PersonFacts['skills'];
  const daysOff = planning.daysOff as unknown as PersonFacts['daysOff'];
  return [{ id, name, latitude, longitude, workDays, shiftFrom, regularUntil, shiftUntil, mostNights, skills, daysOff }];
}

function siteFacts({ id, name, latitude, longitude, planning }: SiteToRead): SiteFacts[] {
  if (latitude === null || longitude === null) return [];
  const windows = (planning?.windows ?? []) as unknown as SiteFacts['windows'];
  return [{ id, name, latitude, longitude, windows, extraMinutes: planning?.extraMinutes ?? 0, mayWorkAlone: planning?.mayWorkAlone ?? true }];
}
