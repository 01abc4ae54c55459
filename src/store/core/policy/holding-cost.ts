import { atMost, meanOf, shortfall } from '../demand/pmf/pmf.js';

/**
 * Cost of a level y against a need: h E(y - D)+ + p E(D - y)+.
 *
 * @example costOfLevel([0.5, 0.5], 1, 1, 4) // => 0.5
 */
export function costOfLevel(need: ArrayLike<number>, level: number, held: number, short: number): number {
  const missing = shortfall(need, level);
  return held * (level - meanOf(need) + missing) + short * missing;
}

/**
 * Newsvendor: the least level that is enough with probability p/(h + p).
 *
 * @example bestLevel([0.5, 0.3, 0.2], 1, 3) // => 1
 */
export function bestLevel(need: ArrayLike<number>, held: number, short: number): number {
  let level = 0;
  while (level < need.length - 1 && atMost(need, level) < short / (held + short) - 1e-12) level += 1;
  return level;
}
