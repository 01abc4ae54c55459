import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { localDays } from '../condition/core/local-day.js';
import { IntakeFacts } from '../intake/index.js';
import { dayPlus } from '../shared/day.js';
import { CoverRepository } from './cover.repository.js';
import { coverOfTank, USE_DAYS } from './cover-of-tank.js';

/** Says of every tank of a skid how long it lasts. */
@Injectable()
export class RecomputeCover implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly repository: CoverRepository,
    private readonly intake: IntakeFacts,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(4, (skid) => this.ofSkid(skid));
  }

  async ofSkid(skid: SkidToRecompute): Promise<void> {
    const now = this.clock.now();
    const [tanks, facts, timeZone] = await Promise.all([this.repository.tanks(skid.id), this.intake.tankFactsOf(skid.id), this.repository.timeZone(skid.id)]);
    if (tanks.length === 0 || timeZone === undefined) return;
    const dayOf = localDays(timeZone);
    const covers = [];
    for (const tank of tanks) {
      const own = facts.find(({ tankId }) => tankId === tank.id) ?? { tankId: tank.id, dips: [], deliveries: [] };
      const since = dayPlus(dayOf((own.dips.at(-1)?.at ?? now).getTime()).day, -USE_DAYS - 1);
      const useDays = await this.repository.useDays(skid.id, timeZone, tank.chemical, since);
      covers.push(coverOfTank({ tank, facts: own, useDays, timeZone, now }));
    }
    await this.repository.store(skid.clientId, covers, now);
  }
}
