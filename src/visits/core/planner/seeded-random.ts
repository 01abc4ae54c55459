/**
 * Random numbers from 0 to under 1 that are the same for the same seed: a plan can be made again as it was.
 * Source: Marsaglia 2003, Xorshift RNGs, Journal of Statistical Software 8(14), triple 13, 17, 5 (from memory).
 */
export class SeededRandom {
  private state: number;

  constructor(seed: number) {
    // Seeds that lie side by side begin far apart, and none begins at zero, where the sequence stands still.
    this.state = Math.imul(seed + 1, 2654435761) >>> 0 || 1;
  }

  next(): number {
    let state = this.state;
    state ^= state << 13;
    state ^= state >>> 17;
    state ^= state << 5;
    this.state = state >>> 0;
    return this.state / 4294967296;
  }

  /** One of 0 to `count` - 1. */
  below(count: number): number {
    return Math.floor(this.next() * count);
  }
}
