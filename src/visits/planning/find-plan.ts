import { Injectable } from '@nestjs/common';
import { inputFromFacts } from '../core/plan-facts/input-from-facts.js';
import { placesBefore } from './earlier-places.js';
import type { FactsForPlan } from './plan-facts-reader.js';
import { PlanSearch } from './plan-search.js';
import { type FoundPlan, planToStore } from './plan-to-store.js';
import type { PlacedBefore } from './work-of-plan.js';

/** Searches a plan of these facts; where there was one before, from there on. Nothing is found once it was stopped. */
@Injectable()
export class FindPlan {
  constructor(private readonly search: PlanSearch) {}

  /** A plan will be searched as soon as its facts are read. */
  getReady(): void {
    this.search.getReady();
  }

  async find(
    facts: FactsForPlan,
    seed: number,
    seconds: number,
    before: ReadonlyMap<string, PlacedBefore> = new Map(),
    stopped?: AbortSignal,
  ): Promise<FoundPlan> {
    const made = inputFromFacts(facts);
    return planToStore(await this.search.run(made.input, { seed, seconds, earlier: placesBefore(made, facts, before) }, stopped), made, facts);
  }
}
