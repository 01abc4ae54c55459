import { mean, median } from 'd3-array';
import { meanAbove } from './normal.js';

/** What one earlier set of cartridges on the same duty ran through, and whether it reached the limit or was changed (or still runs) before. */
export interface EarlierLife {
  readonly load: number;
  readonly ended: 'limit' | 'censored';
}

/** The law of the life of the next set: ln(life) follows Student's t with this centre, scale and degrees of freedom. */
export interface LifeLaw {
  readonly lnCentre: number;
  readonly lnScale: number;
  readonly freedom: number;
}

/** Scatter of ln(life) before it is known, and how many lives that guess counts as. Common practice: filters on one feed vary by about 40 %. */
const USUAL_SCATTER = 0.4;
const GUESS_COUNTS_AS = 0.25;
/** Older lives say little of today's feed. */
const MOST_LIVES = 12;

/**
 * Life of a set of cartridges in load, from earlier sets: lognormal, its scatter drawn towards the usual 40 % while few lives are known, and widened for
 * what the mean itself is not sure of. `null` where no earlier set is known.
 *
 * A set that was changed before the limit would have lasted longer: it counts with the life that is to be expected beyond its load (expectation
 * maximisation with the truncated normal). Where no set ever reached the limit, a set is taken to last twice what the middle one ran, which is
 * the even chance for a life met at an unknown point, with a wide scatter. Lives are taken in the order given; the first twelve count.
 *
 * Source: normal-inverse-gamma predictive and censored maximum likelihood by expectation maximisation, standard forms, from memory; the figures are common practice.
 *
 * @example lifeLaw([]) // => null
 * @example lifeLaw([{ load: 1, ended: 'limit' }]).lnCentre // => 0
 */
export function lifeLaw(lives: readonly EarlierLife[]): LifeLaw | null {
  const counted = lives.filter(({ load }) => load > 0).slice(0, MOST_LIVES);
  const ended = counted.filter((life) => life.ended === 'limit');
  if (counted.length === 0) return null;
  if (ended.length === 0) return { lnCentre: Math.log(2 * (median(counted, ({ load }) => load) ?? 0)), lnScale: 2 * USUAL_SCATTER, freedom: 1 };
  let centre = mean(ended, ({ load }) => Math.log(load)) ?? 0;
  let variance = USUAL_SCATTER ** 2;
  for (let round = 0; round < 60; round++) {
    const moments = counted.map((life) => momentsOf(life, centre, Math.sqrt(variance)));
    centre = mean(moments, ({ first }) => first) ?? centre;
    const squares = moments.reduce((sum, { first, spread }) => sum + (first - centre) ** 2 + spread, 0);
    variance = (GUESS_COUNTS_AS * USUAL_SCATTER ** 2 + squares) / (GUESS_COUNTS_AS + counted.length - 1);
  }
  return { lnCentre: centre, lnScale: Math.sqrt(variance * (1 + 1 / counted.length)), freedom: Math.max(1, GUESS_COUNTS_AS + ended.length - 1) };
}

/** Mean and variance of ln(life) of one set: its own where it ended, of the normal above its load where it was cut off. */
function momentsOf(life: EarlierLife, centre: number, scatter: number): { first: number; spread: number } {
  const seen = Math.log(life.load);
  if (life.ended === 'limit') return { first: seen, spread: 0 };
  const z = (seen - centre) / scatter;
  const above = meanAbove(z);
  return { first: centre + scatter * above, spread: scatter ** 2 * Math.max(0, 1 + z * above - above ** 2) };
}

/**
 * Logarithm of the density of ln(life) under the law, up to a constant.
 *
 * @example lnDensity({ lnCentre: 2, lnScale: 0.5, freedom: 3 }, 2.5) // => -0.5753641
 */
export function lnDensity(law: LifeLaw, lnLife: number): number {
  const r = (lnLife - law.lnCentre) / law.lnScale;
  return (-(law.freedom + 1) / 2) * Math.log(1 + r ** 2 / law.freedom);
}
