import { median } from 'd3-array';
import type { Figure, Print } from './evaluation.js';

/** A forecast of what is left, or of a value ahead, and what it was; `low` to `high` holds 8 in 10. */
export interface Scored {
  /** Forecasts of one life or cycle err alike: it counts once where independent ones are counted */
  readonly life: string;
  readonly truth: number;
  readonly forecast: number;
  readonly low?: number;
  readonly high?: number;
}

/** Median of |forecast / truth - 1| in per cent; what says infinity is counted as such. */
export function mdape(scored: readonly Scored[]): number | null {
  return finite(median(scored, ({ truth, forecast }) => (100 * Math.abs(forecast - truth)) / truth));
}

export function rmse(scored: readonly Scored[]): number | null {
  return finite(Math.sqrt(scored.reduce((sum, { truth, forecast }) => sum + (forecast - truth) ** 2, 0) / scored.length));
}

/** Per cent forecast later than it came: what a date missed is made of. */
export function lateShare(scored: readonly Scored[]): number | null {
  return finite((100 * scored.filter(({ truth, forecast }) => forecast > truth).length) / scored.length);
}

export interface Coverage {
  readonly value: number;
  /** Median of high less low, in per cent of the truth */
  readonly width: number;
  readonly n: number;
  readonly lives: number;
  /** Within which a true 80 % would lie by chance in 19 of 20, for so many independent lives */
  readonly interval: readonly [number, number];
}

/** Per cent of truths inside their interval; `null` where no forecast has one. */
export function coverage(scored: readonly Scored[]): Coverage | null {
  const ranged = scored.flatMap(({ low, high, ...rest }) => (low === undefined || high === undefined ? [] : [{ low, high, ...rest }]));
  if (ranged.length === 0) return null;
  const lives = new Set(ranged.map(({ life }) => life)).size;
  return {
    value: (100 * ranged.filter(({ truth, low, high }) => low <= truth && truth <= high).length) / ranged.length,
    width: median(ranged, ({ truth, low, high }) => (100 * (high - low)) / truth) ?? 0,
    n: ranged.length,
    lives,
    interval: byChance(lives),
  };
}

/** Central 95 % range of a binomial share of 0.8, in per cent, by summing its terms. */
function byChance(n: number): readonly [number, number] {
  let [term, below] = [0.2 ** n, 0];
  let [low, high] = [0, n];
  for (let k = 0; k <= n; k++) {
    if (below + term <= 0.025) low = k + 1;
    if (below < 0.975) high = k;
    below += term;
    term *= ((n - k) / (k + 1)) * 4;
  }
  return [(100 * low) / n, (100 * high) / n];
}

/** Rounded to what is worth reading. */
const rounded = (value: number): number => Number(value.toPrecision(4));

const finite = (value: number | undefined): number | null => (value === undefined || !Number.isFinite(value) ? null : rounded(value));

/** Prints one figure, with its number of forecasts. */
export function printer(print: Print, shared: Partial<Figure>): (measure: string, unit: string, value: number | null, more: Partial<Figure>) => void {
  return (measure, unit, value, more) => print({ measure, value: value === null ? null : rounded(value), unit, method: 'ours', ...shared, ...more });
}
