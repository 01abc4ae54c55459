import { Injectable } from '@nestjs/common';
import { Clock } from '../../app/index.js';
import type { LearnedMembranes } from '../core/skid/learned-membranes.js';
import { Learner } from '../learning/learner.js';
import { MembraneRecordsRepository } from './membrane-records.repository.js';

/** What was learned this long ago still holds: levels move by the week. */
const HOLDS_MS = 6 * 3_600_000;

/** What the membranes of the fleet teach of how levels go on between cleans and when the next clean comes. Learned once for all skids, and again after six hours. */
@Injectable()
export class MembraneFleet {
  private learned: { readonly at: Date; readonly of: Promise<LearnedMembranes | null> } | undefined;

  constructor(
    private readonly repository: MembraneRecordsRepository,
    private readonly learner: Learner,
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

  private async learn(at: Date): Promise<LearnedMembranes | null> {
    return this.learner.learn('membranes', { records: await this.repository.ofFleet(), at });
  }
}
