import type { MetWithin } from '../days-to-limit.js';
import { DAYS_AHEAD } from '../horizon.js';

/**
 * The probability that any of several limits is met within a number of days: 1 - product of (1 - each). They are taken to come independently of each other.
 *
 * Source: competing limits, standard form.
 *
 * @example earliestOf([() => 0.5, () => 0.2])(10) // => 0.6
 */
export function earliestOf(limits: readonly MetWithin[]): MetWithin {
  return (days) => 1 - limits.reduce((open, met) => open * (1 - met(days)), 1);
}

/**
 * How likely each of several limits is to come before the others, as shares of 1, as far as they come within the horizon at all; nought for all where none does. Between the days of the grid the others stand at their
 * middle.
 *
 * Source: as `earliestOf`.
 *
 * @example firstOf([(days) => Math.min(1, days / 10), () => 0]) // => [1, 0]
 */
export function firstOf(limits: readonly MetWithin[]): number[] {
  const shares = limits.map(() => 0);
  let before = limits.map(() => 0);
  for (const day of DAYS_AHEAD) {
    const now = limits.map((met) => met(day));
    for (const at of shares.keys()) {
      const othersOpen = now.reduce((open, share, other) => (other === at ? open : open * (1 - (share + (before[other] ?? 0)) / 2)), 1);
      shares[at] = (shares[at] ?? 0) + Math.max(0, (now[at] ?? 0) - (before[at] ?? 0)) * othersOpen;
    }
    before = now;
  }
  const total = shares.reduce((sum, share) => sum + share, 0);
  return total > 0 ? shares.map((share) => share / total) : shares;
}
