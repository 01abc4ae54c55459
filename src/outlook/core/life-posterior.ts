import { cumsum } from 'd3-array';
import { type CloggingGrowth, lnLikelihood } from './clogging-growth.js';
import { type LifeLaw, lnDensity } from './life-law.js';

const STEPS = 400;
/** Lives up to this many times the present load, or four scatters beyond what earlier sets say */
const LONGEST = 40;

/**
 * What is known of the remaining load of a part: the law of earlier lives and the growth of its own signal, multiplied on a grid of lives longer than what
 * it has run already. Gives the probability that the limit is met by a further load.
 *
 * With neither lives nor growth it knows nothing and is not asked. Without earlier lives the density of the life falls with its square: a part met at an
 * unknown point of its life has even odds to run as long again (scale-free prior, from memory: Gott 1993). A part older than all earlier ones keeps some life:
 * the grid begins at its load, and the law has heavy tails.
 *
 * Source: Bayes' rule on a grid.
 *
 * @example metByFurtherLoad(1000, null, null)(0) // => 0
 */
export function metByFurtherLoad(load: number, law: LifeLaw | null, growth: CloggingGrowth | null): (further: number) => number {
  const from = Math.log(load);
  const to = Math.max(from + Math.log(LONGEST), law === null ? 0 : law.lnCentre + 4 * law.lnScale);
  const lnLives = Array.from({ length: STEPS }, (_, i) => from + ((to - from) * (i + 0.5)) / STEPS);
  const lnWeights = lnLives.map((lnLife) => (law === null ? -lnLife : lnDensity(law, lnLife)) + (growth === null ? 0 : lnLikelihood(growth, Math.exp(lnLife))));
  const highest = Math.max(...lnWeights);
  const summed = cumsum(lnWeights, (weight) => Math.exp(weight - highest));
  const total = summed.at(-1) ?? 1;
  const step = (to - from) / STEPS;
  return (further) => {
    const place = (Math.log(load + further) - from) / step;
    if (place <= 0) return 0;
    if (place >= STEPS) return 1;
    const cell = Math.floor(place);
    const below = cell === 0 ? 0 : (summed[cell - 1] ?? 0);
    return (below + (place - cell) * ((summed[cell] ?? total) - below)) / total;
  };
}
