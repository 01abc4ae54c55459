import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { CartridgeFleet } from './cartridges/cartridge-fleet.js';
import { CloggingLivesRepository } from './cartridges/clogging-lives.repository.js';
import type { LearnedFleet } from './core/skid/kept-life.js';
import type { SetFitted } from './core/skid/known-of-skid.js';
import { cloggingLives, outlooksOf } from './core/skid/outlooks-of-skid.js';
import { OutlooksOfParts } from './lives/outlooks-of-parts.js';
import { MembraneFleet } from './membranes/membrane-fleet.js';
import { OutlookRepository } from './outlook.repository.js';
import { BackCast } from './record/back-cast.js';
import { Calibrations } from './record/calibrations.js';
import { ScoreOutlooks } from './record/score-outlooks.js';

/** Forecasts, from the condition of a skid, when each of its limits will be met. */
@Injectable()
export class RecomputeOutlook implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly repository: OutlookRepository,
    private readonly cartridges: CartridgeFleet,
    private readonly membranes: MembraneFleet,
    private readonly lives: CloggingLivesRepository,
    private readonly calibrations: Calibrations,
    private readonly parts: OutlooksOfParts,
    private readonly scores: ScoreOutlooks,
    private readonly backCast: BackCast,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(2, (skid) => this.ofSkid(skid));
  }

  /** A skid that does not run has no new outlook: its clock stands still. What came of earlier ones is looked at all the same. */
  async ofSkid(skid: SkidToRecompute): Promise<void> {
    const facts = await this.repository.facts(skid.id);
    const origin = facts?.lastReadingAt ?? null;
    if (facts === undefined || origin === null) return;
    const [days, cleans, sets, doubts] = await Promise.all([
      this.repository.days(skid.no),
      this.repository.recoveryCleanDays(skid.id, facts.timeZone),
      this.repository.cartridgeSets(skid.id, facts.timeZone),
      this.repository.doubts(skid.id, facts.timeZone),
    ]);
    const known = { ...facts, doubts };
    await this.lives.store(skid.no, cloggingLives(days, sets, facts.cartridgeLimitKpa));
    if (facts.serviceState === 'in service') {
      const [fleets, membranes, stretchFor] = await Promise.all([this.fleetsOf(sets), this.membranes.now(), this.calibrations.now()]);
      const ofParts = await this.parts.ofSkid(skid, origin, facts.timeZone, stretchFor);
      await this.repository.store(skid, [...outlooksOf(known, origin, days, cleans, sets, { fleets, membranes, stretchFor }), ...ofParts], this.clock.now());
    }
    await this.scores.ofSkid(skid, { days, sets, recoveryCleans: cleans });
    await this.backCast.later(skid, { firstDay: days[0]?.day, lastDay: days.at(-1)?.day });
  }

  private async fleetsOf(sets: readonly SetFitted[]): Promise<Map<string, LearnedFleet>> {
    const items = new Set(sets.flatMap(({ itemId, removedOn }) => (removedOn === null ? [itemId] : [])));
    return new Map(await Promise.all([...items].map(async (itemId) => [itemId, await this.cartridges.of(itemId)] as const)));
  }
}
