import { Injectable } from '@nestjs/common';
import { Clock } from '../../app/index.js';
import { fleetOf } from '../core/clogging/fleet.js';
import { type LearnedFleet, toEarlierLife } from '../core/skid/kept-life.js';
import { Learner } from '../learning/learner.js';
import { CloggingLivesRepository } from './clogging-lives.repository.js';

/** What was learned this long ago still holds: sets are changed every few weeks. */
const HOLDS_MS = 6 * 3_600_000;

/** What the fleet's sets of one item teach, from their stored lives. Learned once for all skids, and again after six hours: it forecasts each life from the others. */
@Injectable()
export class CartridgeFleet {
  private readonly learned = new Map<string, { readonly at: Date; readonly of: Promise<LearnedFleet> }>();

  constructor(
    private readonly repository: CloggingLivesRepository,
    private readonly learner: Learner,
    private readonly clock: Clock,
  ) {}

  of(itemId: string): Promise<LearnedFleet> {
    const now = this.clock.now();
    const known = this.learned.get(itemId);
    if (known !== undefined && Math.abs(now.getTime() - known.at.getTime()) <= HOLDS_MS) return known.of;
    const learning = this.learn(itemId, now);
    this.learned.set(itemId, { at: now, of: learning });
    learning.catch(() => this.learned.delete(itemId)); // the next one tries again
    return learning;
  }

  private async learn(itemId: string, at: Date): Promise<LearnedFleet> {
    const lives = (await this.repository.ofItem(itemId)).map(toEarlierLife);
    return { fleet: fleetOf(lives, await this.learner.learn('cartridges', lives)), at };
  }
}
