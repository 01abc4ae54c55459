import { Injectable } from '@nestjs/common';
import { group, sum } from 'd3-array';
import { Clock, Database } from '../../app/index.js';
import { type ExtraByDay, Waiting } from '../../outlook/index.js';
import { dayOf } from '../../registry/index.js';
import { type Day, dayPlus, daysBetween } from '../../shared/day.js';
import { stockAhead } from '../../store/index.js';
import type { PersonFacts, PlanFacts, SiteFacts, VisitFacts, WorkFacts } from '../core/plan-facts/facts.js';
import { weekday } from '../core/plan-facts/local-time.js';
import type { VisitBefore } from '../core/plan-facts/overtime-before.js';
import { partsReady } from '../core/plan-facts/parts-ready.js';
import { visitSpan } from '../core/visit-span.js';
import { Travel } from '../travel/travel.js';
import { duesToPlace, jobsToPlace, partsOfWork, type SiteRow, sitesOfPlan, type VisitToKeep, visitsToKeep, type WorkRow } from './plan-facts.repository.js';
import { type PersonToRead, peopleToSend } from './planning-data.repository.js';
import { Rates } from './rates/rates.js';
import { visitsBefore } from './visits-before.repository.js';

const HOUR_MS = 3_600_000;

/** What a plan is made from, and what it knew of the visits that are there. */
export interface FactsForPlan extends PlanFacts {
  readonly visitsThere: readonly VisitToKeep[];
  /** Of sites whose position is not known, too */
  readonly siteNames: ReadonlyMap<string, string>;
  /** People of whom planning knows neither home nor shifts */
  readonly peopleLeftOut: readonly string[];
  /** Why ways are estimated that should not be; null: none is */
  readonly travelSaid: string | null;
}

/** Reads what is to be planned; at most seventeen statements, however much there is. */
@Injectable()
export class PlanFactsReader {
  constructor(
    private readonly database: Database,
    private readonly travel: Travel,
    private readonly rates: Rates,
    private readonly waiting: Waiting,
    private readonly clock: Clock,
  ) {}

  async read(firstDay: string, days: number, keepHours: number): Promise<FactsForPlan> {
    const lastDay = dayPlus(firstDay, days - 1);
    const { prisma, pool } = this.database;
    const [everybody, everywhere, { rates, reckoningCurrency }, jobs, dues, visitsThere, roads] = await Promise.all([
      peopleToSend(prisma),
      sitesOfPlan(pool),
      this.rates.forPlans(prisma),
      jobsToPlace(prisma),
      duesToPlace(pool, lastDay),
      visitsToKeep(prisma, firstDay, lastDay),
      this.travel.known(),
    ]);
    const people = everybody.flatMap(personFacts);
    const sites = everywhere.filter(isPositioned);
    const found = [...jobs, ...dues];
    const priced = rates?.currency === reckoningCurrency ? await this.withWaiting(found, firstDay, days) : found;
    const [before, { table, fault: travelSaid }, work] = await Promise.all([
      this.beforeInWeek(firstDay, people),
      this.travel.forPlan(people, sites, roads),
      this.withParts(priced),
    ]);
    const keepUntil = this.clock.now().getTime() + keepHours * HOUR_MS;
    const known = new Set(people.map(({ id }) => id));
    return {
      firstDay,
      days,
      today: dayOf(this.clock.now()),
      people,
      sites,
      work,
      rates,
      visits: visitsThere.map((visit) => visitFacts(visit, keepUntil)),
      visitsThere,
      visitsBefore: before,
      siteNames: new Map(everywhere.map(({ id, name }) => [id, name])),
      travel: table,
      travelSaid,
      peopleLeftOut: everybody.flatMap(({ id, name }) => (known.has(id) ? [] : [name])),
    };
  }

  /** Looked at only where somebody's overtime has a limit. */
  private beforeInWeek(firstDay: Day, people: readonly PersonFacts[]): Promise<VisitBefore[]> | VisitBefore[] {
    const monday = dayPlus(firstDay, 1 - weekday(firstDay));
    const limited = people.some(({ overtimeHoursAWeek = null }) => overtimeHoursAWeek !== null);
    return limited && monday < firstDay ? visitsBefore(this.database.prisma, monday, firstDay) : [];
  }

  /** Work with what waiting costs, where all of it comes from forecasts and all of their prices are known. */
  private async withWaiting(work: readonly WorkRow[], firstDay: string, days: number): Promise<WorkRow[]> {
    const extras = await this.waiting.extraByDay([...new Set(work.flatMap(({ outlookIds }) => outlookIds ?? []))]);
    return work.map((item) => {
      const own = item.outlookIds?.map((id) => extras.get(id)) ?? [undefined];
      const known = own.filter((extra) => extra !== undefined);
      return known.length < own.length ? item : { ...item, waiting: waitingOfPlan(known, firstDay, days) };
    });
  }

  /** Work with the day from which on its parts are there. */
  private async withParts(work: readonly WorkRow[]): Promise<WorkFacts[]> {
    const { prisma } = this.database;
    const idsOf = (kind: WorkFacts['kind']) => work.flatMap((item) => (item.kind === kind && item.hasSheet ? [item.id] : []));
    const [jobIds, dueIds] = [idsOf('job'), idsOf('due')];
    const parts = jobIds.length + dueIds.length === 0 ? [] : await partsOfWork(prisma, jobIds, dueIds);
    if (parts.length === 0) return [...work];
    const rows = group(parts, ({ workId }) => workId);
    const itemIds = [...new Set(parts.map(({ itemId }) => itemId))];
    const asked = work.map((item) => ({
      key: item.id,
      siteId: item.siteId,
      jobId: item.kind === 'job' ? item.id : null,
      wantedOn: item.bestOn ?? item.latestOn,
      parts: rows.get(item.id) ?? [],
    }));
    const today = dayOf(this.clock.now());
    const ready = partsReady(asked, await stockAhead(prisma, itemIds, today), today);
    return work.map((item) => {
      const parts = ready.get(item.id);
      if (parts?.kind === 'from') return { ...item, partsFromOn: parts.day, partsInVans: parts.vans };
      return parts?.kind === 'missing' ? { ...item, partsMissing: parts.parts } : item;
    });
  }
}

function visitFacts(visit: VisitToKeep, keepUntil: number): VisitFacts {
  const { id, siteId, text, onDay, startTime, minutes, personIds, skills, earliestOn, latestOn, after, state } = visit;
  const stays = state !== 'planned' || visitSpan(visit).fromMs < keepUntil;
  return {
    id,
    siteId,
    text,
    onDay,
    startTime,
    minutes,
    personIds,
    skills,
    earliestOn,
    latestOn,
    after,
    partsFromOn: null,
    promised: state === 'promised',
    stays,
  };
}

function personFacts({ id, name, planning }: PersonToRead): PersonFacts[] {
  if (planning === null) return [];
  const { latitude, longitude, workDays, shiftFrom, regularUntil, shiftUntil, mostNights, restHours, overtimeHoursAWeek } = planning;
  const { breakMinutes, breakFrom, breakUntil } = planning;
  const breakRule = breakMinutes === null || breakFrom === null || breakUntil === null ? null : { minutes: breakMinutes, from: breakFrom, until: breakUntil };
  const skills = planning.skills as unknown as PersonFacts['skills'];
  const daysOff = planning.daysOff as unknown as PersonFacts['daysOff'];
  const onCall = planning.onCall as unknown as NonNullable<PersonFacts['onCall']>;
  const hours = { workDays, shiftFrom, regularUntil, shiftUntil, mostNights, restHours, overtimeHoursAWeek, breakRule };
  return [{ id, name, latitude, longitude, ...hours, skills, daysOff, onCall }];
}

const isPositioned = (site: SiteRow): site is SiteRow & SiteFacts => site.latitude !== null && site.longitude !== null;

/** Day by day of the plan, of all forecasts together; beyond the two years of a forecast it stays as on its last day. */
function waitingOfPlan(extras: readonly ExtraByDay[], firstDay: string, days: number): number[] {
  return Array.from({ length: days }, (_, day) =>
    sum(extras, ({ originDay, extra }) => extra[Math.min(extra.length - 1, Math.max(0, daysBetween(originDay, firstDay) + day))] ?? 0),
  );
}
