import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { type CleanRow, IntakeFacts } from '../intake/index.js';
import { ConditionRepository } from './condition.repository.js';
import { type Baselines, baselines } from './core/baseline.js';
import type { DailyCondition } from './core/daily-condition.js';
import { daysOfRecord, type SkidAsBuilt } from './core/days-of-record.js';
import { doubtfulSignals } from './core/doubtful-signals.js';
import { localDays } from './core/local-day.js';
import { recentLoad } from './core/recent-load.js';
import { FittingsRepository } from './lives/fittings.repository.js';
import { partLives } from './lives/part-lives.js';
import { MachineLives } from './machine-lives.js';

/** Draws from the readings of a skid what condition it is in. */
@Injectable()
export class RecomputeCondition implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly repository: ConditionRepository,
    private readonly intake: IntakeFacts,
    private readonly lives: MachineLives,
    private readonly fittings: FittingsRepository,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(1, (skid) => this.ofSkid(skid));
  }

  async ofSkid(skid: SkidToRecompute): Promise<void> {
    const row = await this.repository.skid(skid.id);
    if (row === undefined) return;
    const [cycles, readings, cleans, machines, lastReadingAt, doubts, fittings] = await Promise.all([
      this.intake.cyclesOf(skid.no),
      this.intake.handReadingsOf(skid.id),
      this.intake.cleansOf(skid.id),
      this.lives.ofSkid(skid),
      this.intake.lastReadingAt(skid),
      this.repository.doubtfulTimes(skid.id),
      this.fittings.ofSkid(skid.id),
    ]);
    const days = daysOfRecord(row, cycles, readings);
    const load = recentLoad(days);
    const doubtfulOn = doubtfulSignals(doubts, row.timeZone);
    await this.repository.store(skid, {
      days: days.map((day) => ({ ...day, doubtful: doubtfulOn(day.day) })),
      lastReadingAt,
      byHand: cycles.length === 0 && readings.length > 0,
      baselines: baselinesOf(row, days, cleans),
      dailyLoadM3: load.kind === 'recent-load' ? load.meanM3 : null,
      dailyLoadSd: load.kind === 'recent-load' ? load.sdM3 : null,
      lives: partLives(fittings, machines, row.timeZone, this.clock.now()),
      machines: machines.map(({ counter, points: _, ...machine }) => ({ kind: counter, ...machine })),
      now: this.clock.now(),
    });
  }
}

function baselinesOf(row: SkidAsBuilt, days: readonly DailyCondition[], cleans: readonly CleanRow[]): Baselines {
  const dayOf = localDays(row.timeZone);
  const { baselineLmhBar, commissionedOn, referenceC } = row;
  const commissioning = baselineLmhBar === null || commissionedOn === null ? null : { day: commissionedOn, permeabilityLmhBar: baselineLmhBar, referenceC };
  return baselines({ days, cleans: cleans.map(({ kind, at }) => ({ kind, day: dayOf(at.getTime()).day })), commissioning, referenceC });
}
