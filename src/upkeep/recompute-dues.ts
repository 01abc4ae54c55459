import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { MachineLives } from '../condition/index.js';
import { IntakeFacts } from '../intake/index.js';
import { duesOfOutlooks } from './dues-of-outlooks.js';
import { duesOfRules } from './dues-of-rules.js';
import { UpkeepRepository } from './upkeep.repository.js';

/** Says, from rules, counters, the work done and outlooks, what a skid needs and when. */
@Injectable()
export class RecomputeDues implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly repository: UpkeepRepository,
    private readonly intake: IntakeFacts,
    private readonly lives: MachineLives,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(3, (skid) => this.ofSkid(skid));
  }

  async ofSkid(skid: SkidToRecompute): Promise<void> {
    const now = this.clock.now();
    const row = await this.repository.skid(skid.id, now);
    if (row === undefined || row.serviceState === 'retired') return this.repository.replaceDues(skid, [], now);
    const [positions, rules, lives, done, outlooks] = await Promise.all([
      this.repository.positions(skid.id),
      this.repository.rules(skid.id),
      this.lives.ofSkid(skid),
      this.intake.serviceEntriesOf(skid.id),
      row.serviceState === 'in service' ? this.repository.outlooks(skid.no) : [],
    ]);
    const dues = [...duesOfRules({ skid: row, positions, rules, lives, done }), ...duesOfOutlooks(outlooks)];
    await this.repository.replaceDues(skid, dues, now);
  }
}
