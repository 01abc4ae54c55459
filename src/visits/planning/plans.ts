import { Injectable } from '@nestjs/common';
import { type Caller, Clock, faultIn, type KeyedRequest, KeyedWork } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { FindPlan } from './find-plan.js';
import { PlanFactsReader } from './plan-facts-reader.js';
import { PlanList } from './plan-list.js';
import type { PlanView } from './plan-views.dto.js';
import { PlanWriter } from './plan-writer.repository.js';
import type { PlanDto } from './plans.dto.js';

/** Where nothing else is asked for. */
export const USUAL = { days: 14, seconds: 3, seed: 1, keepHours: 24 };

/** Makes a plan of what is to be done, from what is stored, and keeps it. The search runs outside of any transaction; a plan with a fault is not stored. */
@Injectable()
export class Plans {
  constructor(
    private readonly facts: PlanFactsReader,
    private readonly finder: FindPlan,
    private readonly keyed: KeyedWork,
    private readonly writer: PlanWriter,
    private readonly list: PlanList,
    private readonly clock: Clock,
  ) {}

  async make(caller: Caller, key: KeyedRequest, input: PlanDto, stopped?: AbortSignal): Promise<PlanView> {
    const earlier = await this.keyed.earlier<{ id: string }>(key);
    if (earlier !== undefined) return this.list.read(earlier.answer.id);
    const { days = USUAL.days, seconds = USUAL.seconds, seed = USUAL.seed, keepHours = USUAL.keepHours } = input;
    const today = this.clock.now().toISOString().slice(0, 10);
    const firstDay = input.firstDay ?? dayPlus(today, 1);
    if (firstDay < today) throw faultIn('firstDay', `${firstDay} has passed: plan from ${today} on`);
    this.finder.getReady();
    const facts = await this.facts.read(firstDay, days, keepHours);
    const { lines, leftOut, ...found } = await this.finder.find(facts, seed, seconds, new Map(), stopped);
    const who = { madeAt: this.clock.now(), madeById: caller.id, madeBy: caller.name };
    const { peopleLeftOut, travelSaid } = facts;
    const how = { firstDay, days, seed, seconds, keepHours, replacesId: null, asked: {}, changes: [], peopleLeftOut, travelSaid };
    const plan = { plan: { ...who, ...how, ...found }, lines, leftOut };
    const { id, keys } = await this.writer.store(key, plan);
    return keys === null ? this.list.read(id) : this.list.justStored(keys, plan, facts, null);
  }
}
