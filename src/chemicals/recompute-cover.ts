import { Injectable, type OnModuleInit } from '@nestjs/common';
import { Clock, Recompute, type SkidToRecompute } from '../app/index.js';
import { CoverRepository } from './cover.repository.js';
import { BOOK_DAYS, coverOfTank } from './cover-of-tank.js';
import { TankSituations } from './tank-situations.js';

/** Says of every tank of a skid, and of those that it draws from, how long it lasts and what its books say. */
@Injectable()
export class RecomputeCover implements OnModuleInit {
  constructor(
    private readonly recompute: Recompute,
    private readonly situations: TankSituations,
    private readonly repository: CoverRepository,
    private readonly clock: Clock,
  ) {}

  onModuleInit(): void {
    this.recompute.addStep(4, (skid) => this.ofSkid(skid));
  }

  async ofSkid({ id }: SkidToRecompute): Promise<void> {
    const now = this.clock.now();
    const situations = await this.situations.ofSkid(id, BOOK_DAYS, now);
    if (situations.length > 0) await this.repository.store(situations.map(coverOfTank), now);
  }
}
