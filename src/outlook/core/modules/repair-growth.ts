import { NINTHS } from '../ninths.js';

/** How the repairs of a module come: as often as `expected` until now, and ever more often with a `growth` above 1. Nine growths, each as likely as the others. */
export interface RepairGrowth {
  readonly events: number;
  readonly age: number;
  readonly growths: readonly number[];
}

/** Before its repairs speak a module is taken to break a little more often as it ages: the usual growth, which counts as so many repairs. Own guess. */
const USUAL_GROWTH = 1.5;
const COUNTS_AS = 4;
/** A repair at the age of nought would say that all come at once. */
const LEAST_AGE = 0.5;

/**
 * How often repairs come, from the ages at which they were made: the number until an age t grows as t ^ growth. Given how many there were, the growth is known as a gamma law with (repairs + 4) over (sum of ln(age / age at
 * repair) + 4 / 1.5): the maximum-likelihood value, repairs over the sum, drawn towards the usual growth.
 *
 * Source: power-law process (Crow), its conjugate prior, from memory; quantiles of the gamma law after Wilson and Hilferty 1931.
 *
 * @example repairGrowth([], 1000).growths.length // => 9
 */
export function repairGrowth(agesAtRepair: readonly number[], age: number): RepairGrowth {
  const ages = agesAtRepair.filter((one) => Number.isFinite(one) && one >= 0 && one <= age);
  const shape = COUNTS_AS + ages.length;
  const rate = COUNTS_AS / USUAL_GROWTH + sumOfLogs(ages, age);
  const growths = NINTHS.map((z) => (shape / rate) * (1 - 1 / (9 * shape) + z / (3 * Math.sqrt(shape))) ** 3);
  return { events: ages.length, age, growths };
}

/**
 * Sum of ln(age / age at repair): repairs divided by it are the most likely growth.
 *
 * @example sumOfLogs([500, 1000], 1000) // => 0.6931471805599453
 */
export function sumOfLogs(agesAtRepair: readonly number[], age: number): number {
  return agesAtRepair.reduce((sum, one) => sum + Math.log(age / Math.max(LEAST_AGE, one)), 0);
}

/** A prior of half a repair: what Jeffreys' rule asks for. */
const HALF = 0.5;

/**
 * The probability that at least so many further repairs come within a number of days. Their number is negative binomial: Poisson about a mean of which the repairs until now tell, averaged over the growths.
 *
 * Source: gamma and Poisson laws, standard forms, from memory.
 *
 * @example repairsWithin({ events: 1, age: 100, growths: [1] }, 0)(10) // => 1
 * @example repairsWithin({ events: 0, age: 100, growths: [1] }, 1)(300) // => 0.5
 */
export function repairsWithin({ events, age, growths }: RepairGrowth, further: number): (days: number) => number {
  const shape = events + HALF;
  return (days) => {
    if (further <= 0) return 1;
    if (!(days > 0)) return 0;
    const shares = growths.map((growth) => atLeast(further, shape, ((age + days) / age) ** growth - 1));
    return shares.reduce((sum, share) => sum + share, 0) / shares.length;
  };
}

/** Of a negative binomial law with a mean of shape times odds. */
function atLeast(count: number, shape: number, odds: number): number {
  const share = odds / (1 + odds);
  let term = (1 + odds) ** -shape;
  let below = 0;
  for (let k = 0; k < count; k++) {
    below += term;
    term *= ((shape + k) / (k + 1)) * share;
  }
  return Math.min(1, Math.max(0, 1 - below));
}
