import { median } from 'd3-array';
import { type LifeLaw, lifeLaw } from '../life-law.js';
import { type CleanRun, daysOf } from './clean-run.js';

/** What earlier intervals between recovery cleans say of the next one, in days. */
export interface IntervalLaw {
  /** Its distribution, with those that still run */
  readonly law: LifeLaw;
  /** The middle of those that ended */
  readonly usual: number;
}

/** The intervals of all other units count as so many of the unit's own. Common practice: plants keep to their habits, and two of them begin to show it. */
const OTHERS_COUNT_AS = 2;

/**
 * The interval to the next recovery clean of a unit, from its own earlier ones drawn towards those of the others, the latest first. An interval that still runs counts as longer than it is (`lifeLaw`). `null` where
 * none has ended.
 *
 * @example intervalLaw([], []) // => null
 */
export function intervalLaw(own: readonly CleanRun[], others: readonly CleanRun[]): IntervalLaw | null {
  const [ofOwn, ofOthers] = [lawOf(own), lawOf(others)];
  if (ofOwn === null || ofOthers === null) return ofOwn ?? ofOthers;
  const count = own.filter(({ ended }) => ended === 'clean').length;
  const drawn = (mine: number, theirs: number) => (count * mine + OTHERS_COUNT_AS * theirs) / (count + OTHERS_COUNT_AS);
  return {
    law: { ...ofOthers.law, lnCentre: drawn(ofOwn.law.lnCentre, ofOthers.law.lnCentre) },
    usual: Math.exp(drawn(Math.log(ofOwn.usual), Math.log(ofOthers.usual))),
  };
}

function lawOf(runs: readonly CleanRun[]): IntervalLaw | null {
  const latestFirst = runs.filter((run) => daysOf(run) > 0).sort((one, other) => other.to - one.to);
  const usual = median(
    latestFirst.filter(({ ended }) => ended === 'clean'),
    daysOf,
  );
  const law = lifeLaw(latestFirst.map((run) => ({ load: daysOf(run), ended: run.ended === 'clean' ? 'limit' : 'censored' })));
  return usual === undefined || law === null ? null : { law, usual };
}
