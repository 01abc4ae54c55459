import type { HorizonLaw, LevelLaw } from './level-law.js';
import { changeBy, missOf } from './level-law.js';
import type { LevelSigns } from './level-signs.js';
import type { PastChange } from './past-changes.js';

/** ln(value then / level now), and within how far of it 8 in 10 lie. */
export interface ChangeAhead {
  readonly daysAhead: number;
  readonly change: number;
  readonly reach: number;
}

/** All misses of other units count as so many of the unit's own, of which the last twelve count. */
const FLEET_COUNTS_AS = 6;
const OWN_MISSES = 12;
/** Before misses are known: 8 in 10 within 0.45 % per root of a day, which counts as one of its own; no range is narrower than a tenth of that. Chosen on the daily values of four plant units. */
const USUAL_REACH = 0.0045;
const USUAL_COUNTS_AS = 1;
const LEAST_SHARE = 0.1;
const MOST = 0.8;

/**
 * How a level goes on at each horizon of the law, from the signs of the day, with the range that past forecasts of the same horizon needed: those of other units, and those of this unit
 * whose day has come (`own`, its past changes up to today, in any runs).
 *
 * Source: own composition; the range after split conformal prediction (Vovk and others, from memory).
 *
 * @example changesAhead([], { level: 1, drift: 0, last: 0, fortnight: 0, pace: 1 }, [], 'a') // => []
 */
export function changesAhead(law: LevelLaw, signs: LevelSigns, own: readonly PastChange[], unit: string): ChangeAhead[] {
  return law.map((horizon) => {
    const { daysAhead, weights } = horizon;
    return { daysAhead, change: changeBy(weights, signs, signs.pace * daysAhead), reach: reachOf(horizon, own, unit) };
  });
}

function reachOf({ daysAhead, weights, misses }: HorizonLaw, own: readonly PastChange[], unit: string): number {
  const others = misses.filter((miss) => miss.unit !== unit);
  const total = others.reduce((sum, { weight }) => sum + weight, 0);
  const mine = own.filter((change) => change.daysAhead === daysAhead && change.seenShare === undefined).slice(-OWN_MISSES);
  const usual = USUAL_REACH * Math.sqrt(daysAhead);
  const known = [
    ...others.map(({ size, weight }) => ({ size, weight: (FLEET_COUNTS_AS * weight) / total })),
    ...mine.map((change) => ({ size: missOf(change, weights), weight: 1 })),
    // The usual miss as a whole law of misses would ask for a table; its middle and its ends do.
    ...[0.2, 0.5, 1, 1.4].map((share) => ({ size: share * usual, weight: USUAL_COUNTS_AS / 4 })),
  ].sort((one, other) => one.size - other.size);
  const wanted = MOST * known.reduce((sum, { weight }) => sum + weight, 0);
  let sum = 0;
  for (const { size, weight } of known) {
    sum += weight;
    if (sum >= wanted - 1e-12) return Math.max(size, LEAST_SHARE * usual);
  }
  return known.at(-1)?.size ?? usual;
}
