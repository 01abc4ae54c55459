import { Injectable } from '@nestjs/common';
import { Database, NotFound, type PageQuery, readCursor, toPage, viewOf } from '../../app/index.js';
import type { KindOfCost } from '../core/plan-facts/cost-by-kind.js';
import type { PlaceInPlan, PlanChange } from '../core/plan-facts/plan-changes.js';
import type { PlanRates } from '../core/plan-facts/plan-prices.js';
import type { FactsForPlan } from './plan-facts-reader.js';
import {
  NotInPlanView,
  PlaceInPlanView,
  PlanBreakView,
  PlanChangeView,
  PlanCostView,
  PlanHeadView,
  PlanLineAcceptedView,
  PlanLineVanView,
  PlanLineView,
  PlanLineWasView,
  PlanLineWhyView,
  PlanOvertimeBeforeView,
  PlanPersonView,
  PlanStopView,
  PlansPageView,
  PlanTourView,
  PlanView,
  PlanWorkView,
} from './plan-views.dto.js';
import type { PlanToStore, StoredKeys } from './plan-writer.repository.js';
import type { StoredCost, StoredPerson, StoredTour, StoredWhy } from './stored-plan.js';
import { findPlan, plansPage, type StoredPlan } from './stored-plans.repository.js';

/** Plans as they were stored. */
@Injectable()
export class PlanList {
  constructor(private readonly database: Database) {}

  async page({ cursor, limit }: PageQuery): Promise<PlansPageView> {
    const [before] = readCursor(cursor, 1) ?? [];
    const rows = await plansPage(this.database.prisma, before === undefined ? null : Math.trunc(Number(before)), limit);
    const page = toPage(
      rows,
      limit,
      (row) => viewOf(PlanHeadView, row),
      ({ no }) => [no],
    );
    return viewOf(PlansPageView, page);
  }

  async read(id: string): Promise<PlanView> {
    const plan = await findPlan(this.database.prisma, id);
    if (plan === null) throw new NotFound('plan', id);
    return planView(plan);
  }

  /** A plan that was stored a moment ago, from what is known of it: its lines, which may be thousands, need not be read again. */
  async justStored(
    { id, no, lineIds }: StoredKeys,
    { plan, lines, leftOut }: PlanToStore,
    { siteNames, visitsThere }: FactsForPlan,
    replaces: StoredPlan['replaces'],
  ): Promise<PlanView> {
    const visitNos = new Map(visitsThere.map((visit) => [visit.id, visit.no]));
    const siteOf = (siteId: string) => ({ name: siteNames.get(siteId) ?? '' });
    if ([...lines, ...leftOut].some(({ siteId }) => !siteNames.has(siteId))) return this.read(id);
    return planView({
      ...plan,
      id,
      no,
      replaces,
      replacedBy: null,
      lines: lines.map((line, at) => {
        const visitNo = line.visitId === null ? undefined : visitNos.get(line.visitId);
        return { ...line, id: lineIds[at] ?? '', site: siteOf(line.siteId), visit: visitNo === undefined ? null : { no: visitNo }, acceptance: null };
      }),
      leftOut: leftOut.map((item) => ({ ...item, site: siteOf(item.siteId) })),
    });
  }
}

function planView(plan: StoredPlan): PlanView {
  const { id, no, madeAt, madeBy, days, seed, seconds, keepHours, replacesId, replaces, replacedBy, lines, leftOut } = plan;
  return viewOf(PlanView, {
    id,
    no,
    madeAt,
    madeBy,
    firstDay: plan.firstDay,
    days,
    seed,
    seconds,
    keepHours,
    verdict: plan.verdict,
    replacesId,
    replacesNo: replaces?.no ?? null,
    replacedById: replacedBy?.id ?? null,
    replacedByNo: replacedBy?.no ?? null,
    costs: (plan.costs as readonly (KindOfCost & Partial<StoredCost>)[]).map((cost) => viewOf(PlanCostView, { ...cost, money: cost.money ?? null })),
    currency: (plan.rates as unknown as PlanRates | null)?.currency ?? null,
    lines: lines.map(lineView),
    tours: (plan.tours as unknown as StoredTour[]).map((tour) =>
      viewOf(PlanTourView, {
        ...tour,
        onCall: tour.onCall ?? false,
        breakAt: tour.breakAt ? viewOf(PlanBreakView, tour.breakAt) : null,
        breakLeftOut: tour.breakLeftOut ?? false,
        stops: tour.stops.map((stop) => viewOf(PlanStopView, stop)),
      }),
    ),
    notInPlan: leftOut.map(({ workId, kind, text, siteId, site, urgent, promised, reason }) =>
      viewOf(NotInPlanView, { id: workId, kind, text, siteId, siteName: site.name, urgent, promised, reason }),
    ),
    changes: plan.changes.map(changeView),
    peopleLeftOut: [...plan.peopleLeftOut],
    travelSaid: plan.travelSaid,
  });
}

const peopleView = (people: readonly StoredPerson[]) => people.map((person) => viewOf(PlanPersonView, person));

function lineView(line: StoredPlan['lines'][number]): PlanLineView {
  const { id, promised, siteId, site, travelMinutes, workMinutes, reason, acceptance, visit, was } = line;
  const { travelSource, ...why } = line.why as Omit<StoredWhy, 'shortNotice' | 'waterOffMinutes' | 'after' | 'vans' | 'overtimeBefore'> & Partial<StoredWhy>;
  return viewOf(PlanLineView, {
    id,
    change: line.change,
    visitId: line.visitId ?? acceptance?.visitId ?? null,
    visitNo: visit?.no ?? acceptance?.visit.no ?? null,
    promised,
    siteId,
    siteName: site.name,
    day: line.onDay,
    startAt: line.startTime,
    endAt: line.endTime,
    travelMinutes,
    travelSource,
    travelIsEstimated: travelSource === 'estimated by distance',
    workMinutes,
    people: peopleView(line.people),
    work: line.work.map((work) => viewOf(PlanWorkView, work)),
    was: line.change !== 'shift' || was === null ? null : viewOf(PlanLineWasView, { ...was, people: peopleView(was.people) }),
    reason,
    why: viewOf(PlanLineWhyView, {
      ...why,
      withSites: [...why.withSites],
      shortNotice: why.shortNotice ?? false,
      waterOffMinutes: why.waterOffMinutes ?? 0,
      after: [...(why.after ?? [])],
      vans: (why.vans ?? []).map((van) => viewOf(PlanLineVanView, van)),
      overtimeBefore: (why.overtimeBefore ?? []).map((had) => viewOf(PlanOvertimeBeforeView, had)),
    }),
    accepted: acceptance === null ? null : viewOf(PlanLineAcceptedView, { at: acceptance.at, by: acceptance.by }),
  });
}

const placeView = (place: PlaceInPlan | null) =>
  place === null ? null : viewOf(PlaceInPlanView, { day: place.day, startAt: place.startAt, people: peopleView(place.people) });

const changeView = ({ from, to, ...change }: PlanChange) => viewOf(PlanChangeView, { ...change, from: placeView(from), to: placeView(to) });
