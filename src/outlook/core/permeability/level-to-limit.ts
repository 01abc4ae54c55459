import { mean, sum } from 'd3-array';
import { firstPassage } from '../first-passage.js';
import { NINTHS } from '../ninths.js';
import type { ChangeAhead } from './level-ahead.js';

const Z_80 = 1.2815515655446004;
const LEAST_SPREAD = 1e-6;

/** How ln(value) goes on from now, a day: towards the limit counts positive. */
export interface WalkAhead {
  readonly drift: number;
  /** How far the drift may be off (standard deviation) */
  readonly driftSd: number;
  /** Random part: standard deviation per root of a day */
  readonly spread: number;
}

/**
 * The walk through the changes at some horizons ahead: the line through them is its drift, its scatter that of the nearest horizon, and its drift is as unsure as the ranges of the farther ones say.
 * A drift away from the limit counts as none: water that runs through does not clean a membrane. `null` with nothing ahead.
 *
 * @example walkAhead([{ daysAhead: 10, change: -0.1, reach: 0 }], true) // => { "drift": 0.01, "driftSd": 0, "spread": 0.000001 }
 */
export function walkAhead(ahead: readonly ChangeAhead[], falling: boolean): WalkAhead | null {
  const nearest = ahead[0];
  if (nearest === undefined) return null;
  const towards = ahead.map(({ daysAhead, change }) => ({ daysAhead, change: falling ? -change : change }));
  const drift = Math.max(0, sum(towards, ({ daysAhead, change }) => daysAhead * change) / sum(towards, ({ daysAhead }) => daysAhead ** 2));
  const spread = Math.max(LEAST_SPREAD, nearest.reach / Z_80 / Math.sqrt(nearest.daysAhead));
  const driftSd = Math.max(0, ...ahead.map(({ daysAhead, reach }) => Math.sqrt(Math.max(0, (reach / Z_80) ** 2 - spread ** 2 * daysAhead)) / daysAhead));
  return { drift, driftSd, spread };
}

/**
 * The probability that a level meets its limit within so many days, from its changes at some horizons ahead: the first passage of `walkAhead`, averaged over nine equally likely drifts. `distance`
 * is |ln(level / limit)|; a `falling` level meets its limit from above. 1 where the limit is met already, 0 with nothing ahead.
 *
 * Source: own composition; first passage as cited there.
 *
 * @example levelMetWithin([{ daysAhead: 10, change: -0.1, reach: 0 }], { distance: 0.05, falling: true })(10) // => 1
 * @example levelMetWithin([], { distance: 0.05, falling: true })(10) // => 0
 */
export function levelMetWithin(
  ahead: readonly ChangeAhead[],
  { distance, falling }: { readonly distance: number; readonly falling: boolean },
): (days: number) => number {
  const walk = walkAhead(ahead, falling);
  if (walk === null) return () => (distance <= 0 ? 1 : 0);
  const { drift, driftSd, spread } = walk;
  const walks = NINTHS.map((z) => ({ distance, drift: Math.max(0, drift + z * driftSd), spread }));
  return (days) => mean(walks, (one) => firstPassage(days, one)) ?? 0;
}
