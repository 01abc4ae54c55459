import { Injectable } from '@nestjs/common';
import { Clock, faultIn, viewOf } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { workKey } from '../core/plan-facts/facts.js';
import { withAllLater, withOneMore } from '../core/plan-facts/what-if.js';
import { FindPlan } from './find-plan.js';
import { type FactsForPlan, PlanFactsReader } from './plan-facts-reader.js';
import type { FoundPlan } from './plan-to-store.js';
import { PlanCostView } from './plan-views.dto.js';
import { USUAL } from './plans.js';
import { WhatIfCostView, type WhatIfDto, WhatIfPlanView, WhatIfView, WhatIfWorkView } from './what-if.dto.js';
import { placesIn } from './work-of-plan.js';

/** Two plans beside each other: as things are, and as they would be. Neither is kept. */
@Injectable()
export class WhatIf {
  constructor(
    private readonly facts: PlanFactsReader,
    private readonly finder: FindPlan,
    private readonly clock: Clock,
  ) {}

  async compare(input: WhatIfDto): Promise<WhatIfView> {
    const { days: asked = USUAL.days, seconds = USUAL.seconds, seed = USUAL.seed, keepHours = USUAL.keepHours, oneMore, laterDays = 0 } = input;
    if (oneMore === undefined && laterDays === 0)
      throw faultIn('oneMore', 'say what is to be different: one more technician, or everything so many days later (laterDays)');
    const today = this.clock.now().toISOString().slice(0, 10);
    const firstDay = input.firstDay ?? dayPlus(today, 1);
    if (firstDay < today) throw faultIn('firstDay', `${firstDay} has passed: plan from ${today} on`);
    // What comes later needs as many days as there were.
    const days = asked + laterDays;
    const facts = await this.facts.read(firstDay, days, keepHours);
    if (oneMore !== undefined && !facts.people.some(({ id }) => id === oneMore.likePersonId))
      throw faultIn('oneMore/likePersonId', `of ${oneMore.likePersonId} planning knows neither home nor shifts: choose somebody of whom it does`);
    const changed = withAllLater(oneMore === undefined ? facts : withOneMore(facts, oneMore), laterDays);
    const now = await this.finder.find(facts, seed, seconds);
    const otherwise = await this.finder.find(changed, seed, seconds, laterDays === 0 ? placesIn(now.tours) : new Map());
    return view(facts, now, otherwise);
  }
}

function view({ firstDay, days }: FactsForPlan, now: FoundPlan, otherwise: FoundPlan): WhatIfView {
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
    now: planView(now),
    otherwise: planView(otherwise),
    differences: now.costs.map(({ kind }) => viewOf(WhatIfCostView, { kind, minutes: minutesOf(otherwise, kind) - minutesOf(now, kind) })),
    placedOtherwise: only(now, otherwise),
    leftOutOtherwise: only(otherwise, now),
  });
}

const planView = ({ verdict, costs, leftOut }: FoundPlan) =>
  viewOf(WhatIfPlanView, { verdict, costs: costs.map((cost) => viewOf(PlanCostView, cost)), leftOut: leftOut.length });
