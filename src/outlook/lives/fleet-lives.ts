import { Injectable } from '@nestjs/common';
import { group } from 'd3-array';
import { Clock } from '../../app/index.js';
import type { LifeOfKind, TooFewLives } from '../core/lives/life-of-kind.js';
import { Learner } from '../learning/learner.js';
import { LivesRepository } from './lives.repository.js';

/** Kinds of places whose parts wear out by themselves; cartridges have a pressure drop to tell, tanks and transmitters are looked after by rules alone. */
export const WEARING_KINDS = [
  'feed pump',
  'backwash pump',
  'CIP pump',
  'blower',
  'compressor',
  'dosing pump',
  'module',
  'valve',
  'actuator',
  'motor',
  'seal',
] as const;

/** A fleet learns by parts that fail, a few a week: what was learned this long ago still holds. */
const HOLDS_MS = 6 * 3_600_000;

/** What the fleet's lives teach of each kind of part and clock. Learned once for all skids, and again after six hours. */
@Injectable()
export class FleetLives {
  private learned: { readonly at: Date; readonly of: Promise<Map<string, LifeOfKind | TooFewLives>> } | undefined;

  constructor(
    private readonly repository: LivesRepository,
    private readonly learner: Learner,
    private readonly clock: Clock,
  ) {}

  /** By `kind clock`, and when it was learned. */
  async now(): Promise<{ at: Date; of: ReadonlyMap<string, LifeOfKind | TooFewLives> }> {
    const now = this.clock.now();
    if (this.learned === undefined || Math.abs(now.getTime() - this.learned.at.getTime()) > HOLDS_MS) this.learned = { at: now, of: this.learn() };
    const { at, of } = this.learned;
    return {
      at,
      of: await of.catch((error: unknown) => {
        this.learned = undefined; // the next one tries again
        throw error;
      }),
    };
  }

  private async learn(): Promise<Map<string, LifeOfKind | TooFewLives>> {
    const lives = await this.repository.ofFleet(WEARING_KINDS);
    return this.learner.learn(
      'lives',
      group(lives, ({ kind, clock }) => `${kind} ${clock}`),
    );
  }
}
