import { atMost, shortfall } from '../demand/pmf/pmf.js';

/**
 * Mean shortfall level by level: with one more it falls by the probability that more is needed than there was,
 *   E(D - s - 1)+ = E(D - s)+ - P(D > s),
 * so that a search over levels takes one step a level.
 */
export class ShortfallSteps {
  short: number;
  private above: number;

  constructor(
    private readonly need: ArrayLike<number>,
    private level: number,
  ) {
    this.short = shortfall(need, level);
    this.above = level < 0 ? 1 : 1 - atMost(need, level);
  }

  up(): void {
    this.level += 1;
    this.short = Math.max(0, this.short - this.above);
    this.above -= this.level < 0 ? 0 : (this.need[this.level] ?? 0);
  }
}
