import { bestLevel, costOfLevel } from './holding-cost.js';

/** At a review: what stands at `point` or below is raised to `level`. */
export interface OrderUpTo {
  readonly point: number;
  readonly level: number;
  readonly cost: number;
}

/**
 * Cheapest (s, S) under periodic review: with the renewal weights m(0) = 1/(1 - p0), m(j) = sum over l of p(l) m(j - l)/(1 - p0) and M their sum,
 *   c(s, S) = [K + sum over j < S - s of m(j) G(S - j)] / M(S - s).
 * s falls from the least of G until c is no more than G(s); then S rises as long as G(S) can still pay. For a lead time, `protected` is the need of lead time and
 * one review, `need` that of one review.
 *
 * Source: Zheng and Federgruen, Operations Research 39 (1991), from memory.
 */
export function cheapestOrderUpTo(need: ArrayLike<number>, held: number, short: number, perOrder: number, protectedNeed: ArrayLike<number> = need): OrderUpTo {
  const costs = new Map<number, number>();
  const costAt = (level: number) => {
    const known = costs.get(level) ?? costOfLevel(protectedNeed, level, held, short);
    costs.set(level, known);
    return known;
  };
  const none = 1 - (need[0] ?? 0);
  const weights: number[] = [1 / none];
  const weightAt = (j: number) => {
    while (weights.length <= j) {
      const at = weights.length;
      let sum = 0;
      for (let l = 1; l <= Math.min(at, need.length - 1); l++) sum += (need[l] ?? 0) * (weights[at - l] ?? 0);
      weights.push(sum / none);
    }
    return weights[j] ?? 0;
  };
  const cost = (point: number, level: number) => {
    let [above, below] = [perOrder, 0];
    for (let j = 0; j < level - point; j++) {
      above += weightAt(j) * costAt(level - j);
      below += weightAt(j);
    }
    return above / below;
  };
  let level = bestLevel(protectedNeed, held, short);
  let point = level - 1;
  while (cost(point, level) > costAt(point)) point -= 1;
  let least = cost(point, level);
  for (let up = level + 1; costAt(up) <= least; up++) {
    if (cost(point, up) >= least) continue;
    level = up;
    while (cost(point, level) <= costAt(point + 1)) point += 1;
    least = cost(point, level);
  }
  return { point, level, cost: least };
}
