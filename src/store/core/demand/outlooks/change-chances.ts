import { normalCdf } from '../../../../outlook/core/normal.js';
import type { FittedPart, OutlookRecord } from '../types.js';
import { bucketOf } from './learn-record.js';

/** Spread of the life of the part that follows, as a logarithm. Common practice. */
const SPREAD_OF_NEXT = 0.4;
const WEEK = 7;

export interface Chances {
  /** At least one change, and at least two */
  readonly once: number;
  readonly twice: number;
}

/**
 * Probability that a part is changed within so many days from today, and that the one after it is as well, by its outlook as the record of past ones corrects it:
 *   F(t) = Phi((ln t - ln P50 - bias) / spread),
 * given that it has lasted until today. An outlook whose P50 lies beyond its horizon is taken as stated.
 */
export function changeChances(part: FittedPart, days: number, record: OutlookRecord): Chances {
  if (days <= 0) return { once: 0, twice: 0 };
  const met = lawOf(part, record);
  const before = met(part.ageDays);
  const left = Math.max(1e-9, 1 - before);
  const by = (day: number) => Math.min(1, Math.max(0, (met(part.ageDays + day) - before) / left));
  let twice = 0;
  if (part.nextLifeDays !== null && part.nextLifeDays > 0) {
    for (let day = 0; day < days; day += WEEK) {
      const share = by(Math.min(days, day + WEEK)) - by(day);
      twice += share * normalCdf(Math.log((Math.max(0, days - day - WEEK) + WEEK / 2) / part.nextLifeDays) / SPREAD_OF_NEXT);
    }
  }
  return { once: by(days), twice };
}

function lawOf({ stated }: FittedPart, record: OutlookRecord): (day: number) => number {
  const { p50Days, daysAhead, metByDay } = stated;
  const bucket = p50Days === null || p50Days <= 0 ? undefined : bucketOf(record.buckets, p50Days);
  if (p50Days !== null && bucket !== undefined) {
    const middle = Math.log(p50Days) + bucket.bias;
    return (day) => (day <= 0 ? 0 : normalCdf((Math.log(day) - middle) / bucket.spread));
  }
  return (day) => {
    const after = daysAhead.findIndex((ahead) => ahead >= day);
    if (after === -1) return metByDay.at(-1) ?? 0;
    const [low, high] = [daysAhead[after - 1] ?? 0, daysAhead[after] ?? day];
    const [from, to] = [metByDay[after - 1] ?? 0, metByDay[after] ?? 0];
    return high === low ? to : from + ((day - low) / (high - low)) * (to - from);
  };
}
