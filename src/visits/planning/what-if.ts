import { Injectable } from '@nestjs/common';
import { Clock, type FieldProblem, faultIn, InvalidRequest, viewOf } from '../../app/index.js';
import { dayPlus, daysBetween } from '../../shared/day.js';
import { workKey } from '../core/plan-facts/facts.js';
import { withAllLater, withOneMore, withSomeLater } from '../core/plan-facts/what-if.js';
import { FindPlan } from './find-plan.js';
import { type FactsForPlan, PlanFactsReader } from './plan-facts-reader.js';
import type { FoundPlan } from './plan-to-store.js';
import { PlaceInPlanView, PlanCostView, PlanPersonView } from './plan-views.dto.js';
import { USUAL } from './plans.js';
import { type NotBeforeDto, WhatIfCostView, type WhatIfDto, WhatIfLaterView, WhatIfPlanView, WhatIfView, WhatIfWorkView } from './what-if.dto.js';
import { type PlacedBefore, placesIn } from './work-of-plan.js';

/** Work that comes later is given so many days, and plans are no longer than the longest that is searched. */
const ROOM_DAYS = 7;
const MOST_DAYS = 56 + 28;

/** Two plans beside each other: as things are, and as they would be. Neither is kept. */
@Injectable()
export class WhatIf {
  constructor(
    private readonly facts: PlanFactsReader,
    private readonly finder: FindPlan,
    private readonly clock: Clock,
  ) {}

  async compare(input: WhatIfDto, stopped?: AbortSignal): Promise<WhatIfView> {
    const { days: asked = USUAL.days, seconds = USUAL.seconds, seed = USUAL.seed, keepHours = USUAL.keepHours, oneMore, laterDays = 0, notBefore = [] } = input;
    if (oneMore === undefined && laterDays === 0 && notBefore.length === 0)
      throw faultIn(
        'oneMore',
        'say what is to be different: one more technician, everything so many days later (laterDays), or some work not before a day (notBefore)',
      );
    const today = this.clock.now().toISOString().slice(0, 10);
    const firstDay = input.firstDay ?? dayPlus(today, 1);
    if (firstDay < today) throw faultIn('firstDay', `${firstDay} has passed: plan from ${today} on`);
    // What comes later needs as many days as there were.
    const days = Math.max(asked + laterDays, ...notBefore.map(({ from }) => daysBetween(firstDay, from) + ROOM_DAYS));
    if (days > MOST_DAYS) throw faultIn('notBefore', `no plan is longer than ${MOST_DAYS} days: name days up to ${dayPlus(firstDay, MOST_DAYS - ROOM_DAYS)}`);
    this.finder.getReady();
    const facts = await this.facts.read(firstDay, days, keepHours);
    if (oneMore !== undefined && !facts.people.some(({ id }) => id === oneMore.likePersonId))
      throw faultIn('oneMore/likePersonId', `of ${oneMore.likePersonId} planning knows neither home nor shifts: choose somebody of whom it does`);
    refuseFixed(facts, notBefore);
    const more = oneMore === undefined ? facts : withOneMore(facts, oneMore);
    const changed = withSomeLater(withAllLater(more, laterDays), notBefore);
    const now = await this.finder.find(facts, seed, seconds, new Map(), stopped);
    const otherwise = await this.finder.find(changed, seed, seconds, laterDays === 0 ? placesIn(now.tours) : new Map(), stopped);
    return view(facts, now, otherwise, notBefore);
  }
}

/** What stays where it is comes no later. */
function refuseFixed({ work, visits }: FactsForPlan, notBefore: readonly NotBeforeDto[]): void {
  const problems = notBefore.flatMap(({ id }, at): FieldProblem[] => {
    const visit = visits.find((each) => each.id === id);
    if (work.some((item) => item.id === id) || visit?.stays === false) return [];
    const message =
      visit === undefined
        ? 'there is no job that waits, due or visit with this id in these days: it may be done, dropped or computed anew. Read the plan again'
        : 'this visit was promised, has begun or begins too soon to be shifted: choose other work';
    return [{ pointer: `#/notBefore/${at}/id`, message }];
  });
  if (problems.length > 0) throw new InvalidRequest('What is to come later is not in these days, or stays where it is', problems);
}

function view(facts: FactsForPlan, now: FoundPlan, otherwise: FoundPlan, notBefore: readonly NotBeforeDto[]): WhatIfView {
  const { firstDay, days } = facts;
  const keys = (plan: FoundPlan) => new Set(plan.leftOut.map(({ kind, workId }) => workKey({ kind, id: workId })));
  const only = (plan: FoundPlan, other: FoundPlan) => {
    const known = keys(other);
    const apart = plan.leftOut.filter(({ kind, workId }) => !known.has(workKey({ kind, id: workId })));
    return apart.map(({ kind, workId: id, text, reason }) => viewOf(WhatIfWorkView, { kind, id, text, reason }));
  };
  const minutesOf = ({ costs }: FoundPlan, kind: string) => costs.find((cost) => cost.kind === kind)?.minutes ?? 0;
  return viewOf(WhatIfView, {
    firstDay,
    days,
    currency: now.rates?.currency ?? null,
    now: planView(now),
    otherwise: planView(otherwise),
    differences: now.costs.map(({ kind }) => viewOf(WhatIfCostView, { kind, minutes: minutesOf(otherwise, kind) - minutesOf(now, kind) })),
    placedOtherwise: only(now, otherwise),
    leftOutOtherwise: only(otherwise, now),
    later: laterViews(facts, now, otherwise, notBefore),
  });
}

function laterViews({ work, visits }: FactsForPlan, now: FoundPlan, otherwise: FoundPlan, notBefore: readonly NotBeforeDto[]): WhatIfLaterView[] {
  const [here, there] = [placesIn(now.tours), placesIn(otherwise.tours)];
  const all = [...work, ...visits.map((visit) => ({ ...visit, kind: 'visit' as const }))];
  return notBefore.flatMap(({ id }) => {
    const item = all.find((each) => each.id === id);
    if (item === undefined) return [];
    const key = workKey(item);
    return [viewOf(WhatIfLaterView, { id, kind: item.kind, text: item.text, now: placeView(here.get(key)), otherwise: placeView(there.get(key)) })];
  });
}

function placeView(place: PlacedBefore | undefined): PlaceInPlanView | null {
  if (place === undefined) return null;
  const { day, startAt, people } = place;
  return viewOf(PlaceInPlanView, { day, startAt, people: people.map((person) => viewOf(PlanPersonView, person)) });
}

const planView = ({ verdict, costs, leftOut }: FoundPlan) =>
  viewOf(WhatIfPlanView, { verdict, costs: costs.map((cost) => viewOf(PlanCostView, cost)), leftOut: leftOut.length });
