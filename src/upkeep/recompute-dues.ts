import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { addWeeks, type WeekOfWork, workAhead } from './core/work-ahead.js';
import { DuesRepository, type DueToStore } from './dues.repository.js';
import { duesOfOutlooks, OUTLOOK_TASKS } from './dues-of-outlooks.js';
import { duesOfRules } from './dues-of-rules.js';
import { type SheetOfTask, UpkeepRepository } from './upkeep.repository.js';
import { type SkidFacts, UpkeepFacts } from './upkeep-facts.js';

/** Says, from rules, counters, the work done, the condition and outlooks, what a skid needs and when, and what that makes of work in the coming year. */
@Injectable()
export class RecomputeDues implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly facts: UpkeepFacts,
    private readonly repository: UpkeepRepository,
    private readonly dues: DuesRepository,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(3, (skid) => this.ofSkid(skid));
  }

  async ofSkid(skid: SkidToRecompute): Promise<void> {
    const facts = await this.facts.ofSkid(skid);
    const { dues, weeks } = facts === undefined ? { dues: [], weeks: [] } : upkeepOf(facts, await this.repository.sheetsOf(OUTLOOK_TASKS));
    await this.dues.replace(skid, dues, weeks, this.clock.now());
  }
}

/** Dues of rules and outlooks, and the weeks of work that come of them. */
export function upkeepOf(facts: SkidFacts, sheets: readonly SheetOfTask[]): { dues: DueToStore[]; weeks: WeekOfWork[] } {
  const places = duesOfRules(facts);
  const alone = duesOfOutlooks(facts, new Set(places.flatMap(({ outlookIds }) => outlookIds)), sheets);
  const coming = [...places.map((place) => place.coming), ...alone.map((one) => [one.coming])];
  return {
    dues: [...places.flatMap((place) => place.dues), ...alone.map(({ store }) => store)],
    weeks: addWeeks(coming.map((tasks) => workAhead(tasks, facts.skid.today))),
  };
}
