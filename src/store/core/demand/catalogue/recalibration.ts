/** How often needs of a group of items stayed below what was forecast as their u-quantile: at the knots, for each group. */
export interface Recalibration {
  readonly months: number;
  /** Between the groups: recent rates per month at which the next begins, and a mean size */
  readonly rates: readonly number[];
  readonly size: number;
  /** [group][knot] */
  readonly reached: readonly (readonly number[])[];
}

/** Dense where stock is decided. */
const KNOTS: readonly number[] = [
  ...Array.from({ length: 45 }, (_, i) => i / 50),
  ...Array.from({ length: 19 }, (_, i) => 0.9 + i / 200),
  0.993,
  0.995,
  0.997,
  0.998,
  0.999,
  0.9995,
  0.9999,
  1,
];

/** What one past forecast said of what then came: F(y - 1) and F(y), and the group of its item. */
export interface PastForecast {
  readonly group: number;
  readonly below: number;
  readonly upTo: number;
}

/** Outcomes of all items that stand against a group's own; and how far a forecast is moved to what was reached. Chosen by cross-validation. */
const OUTCOMES_OF_ALL = 400;
const STRENGTH = 0.5;

/**
 * Share of outcomes at or below each quantile of their forecasts, with an outcome of a count spread evenly over F(y - 1) to F(y); groups are drawn to all.
 *
 * Source: the non-randomised transform after Czado, Gneiting and Held, Biometrics 65 (2009), from memory.
 */
export function reachedOf(past: readonly PastForecast[], groups: number): number[][] {
  const sums = Array.from({ length: groups }, () => new Float64Array(KNOTS.length));
  const counts = new Float64Array(groups);
  for (const { group, below, upTo } of past) {
    const sum = sums[group];
    if (sum === undefined) continue;
    counts[group] = (counts[group] as number) + 1;
    const width = Math.max(1e-9, upTo - below);
    for (let at = 0; at < KNOTS.length; at++) sum[at] = (sum[at] as number) + Math.min(1, Math.max(0, ((KNOTS[at] as number) - below) / width));
  }
  const total = counts.reduce((sum, count) => sum + count, 0);
  const ofAll = KNOTS.map((u, at) => (total === 0 ? u : sums.reduce((sum, group) => sum + (group[at] as number), 0) / total));
  return sums.map((sum, group) => ofAll.map((all, at) => ((sum[at] as number) + OUTCOMES_OF_ALL * all) / ((counts[group] as number) + OUTCOMES_OF_ALL)));
}

/** A probability of the forecast moved half of the way to the share that was reached there. */
export function recalibrated(reached: readonly number[], probability: number): number {
  let low = 0;
  let high = KNOTS.length - 1;
  while (high - low > 1) {
    const mid = (low + high) >> 1;
    if ((KNOTS[mid] as number) <= probability) low = mid;
    else high = mid;
  }
  const [from, to] = [KNOTS[low] as number, KNOTS[high] as number];
  const share = Math.min(1, (probability - from) / (to - from));
  const there = (reached[low] as number) + share * ((reached[high] as number) - (reached[low] as number));
  return (1 - STRENGTH) * probability + STRENGTH * there;
}
