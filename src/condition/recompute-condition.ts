import { Injectable, type OnModuleInit } from '@nestjs/common';
import { median } from 'd3-array';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import type { CycleFact } from '../intake/core/cycle-fact.js';
import { type CleanRow, IntakeFacts } from '../intake/index.js';
import { ConditionRepository, type SkidRow } from './condition.repository.js';
import { assessCycle, type SkidBasis } from './core/assess-cycle.js';
import { type Baselines, baselines } from './core/baseline.js';
import { type DailyCondition, dailyCondition } from './core/daily-condition.js';
import { doubtfulSignals } from './core/doubtful-signals.js';
import { DEFAULT_GATES, type Gates } from './core/gates.js';
import { localDays } from './core/local-day.js';
import { recentLoad } from './core/recent-load.js';
import { handDays } from './hand-days.js';
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
    const basisOn = basisByDay(row);
    const dayOf = localDays(row.timeZone);
    const gates = gatesFor(row, cycles);
    const assessed = cycles.map((cycle) => ({ cycle, assessment: assessCycle(cycle, basisOn(dayOf(cycle.startedAt.getTime()).day), gates) }));
    const days = merge(dailyCondition(assessed, row.timeZone), handDays(readings, basisOn, row.timeZone));
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

/** A run counts from half of the usual cycle of this plant on, and nothing is cleaner than new by more than a tenth. Common practice. */
function gatesFor({ baselineLmhBar }: SkidRow, cycles: readonly CycleFact[]): Gates {
  const usualMinutes = median(cycles, ({ filtrationMinutes }) => filtrationMinutes);
  const [least, most] = DEFAULT_GATES.permeabilityLmhBar;
  return {
    ...DEFAULT_GATES,
    leastMinutes: Math.min(DEFAULT_GATES.leastMinutes, (usualMinutes ?? Number.POSITIVE_INFINITY) / 2),
    permeabilityLmhBar: [least, baselineLmhBar === null ? most : 1.1 * baselineLmhBar],
  };
}

/** A day that the plant logged itself needs no reading by hand. */
function merge(logged: readonly DailyCondition[], byHand: readonly DailyCondition[]): DailyCondition[] {
  const known = new Set(logged.map(({ day }) => day));
  return [...logged, ...byHand.filter(({ day }) => !known.has(day))].sort((a, b) => (a.day < b.day ? -1 : 1));
}

/** The skid as it was on a day: its active area changes when modules are isolated, and the past keeps its own. */
function basisByDay(row: SkidRow): (day: string) => SkidBasis {
  const base = {
    scheme: row.scheme ?? 'dead-end',
    tmpFrom: row.tmpFrom ?? 'pressures',
    feedHeightM: row.feedHeightM,
    filtrateHeightM: row.filtrateHeightM,
    concentrateHeightM: row.concentrateHeightM,
    referenceC: row.referenceC,
    ratedFlowM3h: row.ratedFlowM3h,
    cartridgeReferenceFlowM3h: row.cartridgeReferenceFlowM3h,
  };
  const bases = row.areas.map(({ fromDay, areaM2 }) => ({ fromDay, basis: { ...base, areaM2 } }));
  const first = bases[0]?.basis ?? { ...base, areaM2: 0 };
  return (day) => bases.findLast(({ fromDay }) => fromDay <= day)?.basis ?? first;
}

function baselinesOf(row: SkidRow, days: readonly DailyCondition[], cleans: readonly CleanRow[]): Baselines {
  const dayOf = localDays(row.timeZone);
  const { baselineLmhBar, commissionedOn, referenceC } = row;
  const commissioning = baselineLmhBar === null || commissionedOn === null ? null : { day: commissionedOn, permeabilityLmhBar: baselineLmhBar, referenceC };
  return baselines({ days, cleans: cleans.map(({ kind, at }) => ({ kind, day: dayOf(at.getTime()).day })), commissioning, referenceC });
}
