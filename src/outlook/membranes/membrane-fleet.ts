import { setImmediate as nextTurn } from 'node:timers/promises';
import { Injectable } from '@nestjs/common';
import { Clock } from '../../app/index.js';
import { type LearnedMembranes, learnMembranes, taughtBy, type UnitTaught } from '../core/skid/learned-membranes.js';
import { MembraneRecordsRepository } from './membrane-records.repository.js';

/** What was learned this long ago still holds: levels move by the week. */
const HOLDS_MS = 6 * 3_600_000;

/** What the membranes of the fleet teach of how levels go on between cleans and when the next clean comes. Learned once for all skids, and again after six hours; others get a turn between skids. */
@Injectable()
export class MembraneFleet {
  private learned: { readonly at: Date; readonly of: Promise<LearnedMembranes | null> } | undefined;

  constructor(
    private readonly repository: MembraneRecordsRepository,
    private readonly clock: Clock,
  ) {}

  async now(): Promise<LearnedMembranes | null> {
    const now = this.clock.now();
    if (this.learned === undefined || Math.abs(now.getTime() - this.learned.at.getTime()) > HOLDS_MS) this.learned = { at: now, of: this.learn(now) };
    return this.learned.of.catch((error: unknown) => {
      this.learned = undefined; // the next one tries again
      throw error;
    });
  }

  private async learn(now: Date): Promise<LearnedMembranes | null> {
    const taught: UnitTaught[] = [];
    for (const record of await this.repository.ofFleet()) {
      taught.push(taughtBy(record));
      await nextTurn();
    }
    return learnMembranes(taught, now);
  }
}
