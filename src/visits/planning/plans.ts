import { Injectable } from '@nestjs/common';
import { type Caller, Clock, faultIn, type KeyedRequest, KeyedWork } from '../../app/index.js';
import { dayPlus } from '../../shared/day.js';
import { inputFromFacts } from '../core/plan-facts/input-from-facts.js';
import { PlanFactsReader } from './plan-facts-reader.js';
import { PlanList } from './plan-list.js';
import { PlanSearch } from './plan-search.js';
import { planToStore } from './plan-to-store.js';
import type { PlanView } from './plan-views.dto.js';
import type { PlanDto } from './plans.dto.js';
import { addPlan } from './stored-plans.repository.js';

const USUAL_DAYS = 14;
const USUAL_SECONDS = 3;
const USUAL_KEEP_HOURS = 24;

/** Makes a plan of what is to be done, from what is stored, and keeps it. The search runs outside of any transaction; a plan with a fault is not stored. */
@Injectable()
export class Plans {
  constructor(
    private readonly facts: PlanFactsReader,
    private readonly search: PlanSearch,
    private readonly keyed: KeyedWork,
    private readonly list: PlanList,
    private readonly clock: Clock,
  ) {}

  async make(caller: Caller, key: KeyedRequest, input: PlanDto): Promise<PlanView> {
    const earlier = await this.keyed.earlier<{ id: string }>(key);
    if (earlier !== undefined) return this.list.read(earlier.answer.id);
    const { days = USUAL_DAYS, seconds = USUAL_SECONDS, seed = 1, keepHours = USUAL_KEEP_HOURS } = input;
    const today = this.clock.now().toISOString().slice(0, 10);
    const firstDay = input.firstDay ?? dayPlus(today, 1);
    if (firstDay < today) throw faultIn('firstDay', `${firstDay} has passed: plan from ${today} on`);
    const facts = await this.facts.read(firstDay, days, keepHours);
    const made = inputFromFacts(facts);
    const { lines, leftOut, ...found } = planToStore(await this.search.run(made.input, seed, seconds), made, facts);
    const { id } = await this.keyed.run(key, async (tx) => {
      const who = { madeAt: this.clock.now(), madeById: caller.id, madeBy: caller.name };
      const { peopleLeftOut, travelSaid } = facts;
      const how = { firstDay, days, seed, seconds, keepHours, replacesId: null, asked: {}, changes: [], peopleLeftOut, travelSaid };
      return { id: await addPlan(tx, { ...who, ...how, ...found }, lines, leftOut) };
    });
    return this.list.read(id);
  }
}
