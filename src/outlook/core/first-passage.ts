import { logNormalCdf, normalCdf } from './normal.js';

/**
 * First passage of a drifting random walk: the probability that a quantity which starts `distance` below a limit has met it by `clock`, when it rises by
 * `drift` per unit of clock on average and scatters by `spread` times the root of the clock. The time of first passage has the inverse Gaussian law.
 *
 * F(t) = Phi((drift t - d) / (spread sqrt t)) + exp(2 drift d / spread^2) Phi(-(drift t + d) / (spread sqrt t)); the second term is taken in logarithms,
 * since its factors overflow and vanish. Never falls with the clock. With no drift every limit is met some day; with a drift away from it perhaps never.
 * 1 where the limit is met already, 0 before anything has run; without spread a step at d / drift.
 *
 * Source: inverse Gaussian distribution (Schrödinger 1915, Wald 1947), formula from memory, checked in the specs against scipy and R statmod values.
 *
 * @example firstPassage(10, { distance: 10, drift: 1, spread: 1 }) // => 0.5616070
 */
export function firstPassage(clock: number, walk: { readonly distance: number; readonly drift: number; readonly spread: number }): number {
  const { distance, drift, spread } = walk;
  if (distance <= 0) return 1;
  if (clock <= 0) return 0;
  if (spread <= 0) return drift * clock >= distance ? 1 : 0;
  const scale = spread * Math.sqrt(clock);
  const direct = normalCdf((drift * clock - distance) / scale);
  const mirrored = Math.exp((2 * drift * distance) / spread ** 2 + logNormalCdf(-(drift * clock + distance) / scale));
  return Math.min(1, direct + mirrored);
}
