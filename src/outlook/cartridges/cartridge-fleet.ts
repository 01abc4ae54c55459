import { Injectable } from '@nestjs/common';
import { Clock } from '../../app/index.js';
import { learnFleet } from '../core/clogging/fleet.js';
import { type LearnedFleet, toEarlierLife } from '../core/skid/kept-life.js';
import { CloggingLivesRepository } from './clogging-lives.repository.js';

/** What was learned this long ago still holds: sets are changed every few weeks. */
const HOLDS_MS = 6 * 3_600_000;

/** What the fleet's sets of one item teach, from their stored lives. Learned once for all skids, and again after six hours: it forecasts each life from the others. */
@Injectable()
export class CartridgeFleet {
  private readonly learned = new Map<string, Promise<LearnedFleet>>();

  constructor(
    private readonly repository: CloggingLivesRepository,
    private readonly clock: Clock,
  ) {}

  async of(itemId: string): Promise<LearnedFleet> {
    const now = this.clock.now();
    const known = this.learned.get(itemId);
    if (known !== undefined) {
      const held = await known;
      if (Math.abs(now.getTime() - held.at.getTime()) <= HOLDS_MS) return held;
    }
    const learning = this.repository.ofItem(itemId).then((rows) => ({ fleet: learnFleet(rows.map(toEarlierLife)), at: now }));
    this.learned.set(itemId, learning);
    learning.catch(() => this.learned.delete(itemId)); // the next one tries again
    return learning;
  }
}
