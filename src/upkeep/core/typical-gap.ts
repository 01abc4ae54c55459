import { median, pairs } from 'd3-array';
import { type Day, daysBetween } from '../../shared/day.js';

/** Older times say little of how it goes today. */
const LATEST = 6;
const LEAST_GAPS = 2;

/**
 * Days that usually lie between two times of a thing that has no fixed interval, such as a recovery clean: the median gap of the latest six times. `null` before there were three
 * days. Days in order; two times on one day are one.
 *
 * Source: own definition.
 *
 * @example typicalGapDays(['2025-01-01', '2025-03-02', '2025-05-11', '2025-05-11']) // => 65
 * @example typicalGapDays(['2025-01-01', '2025-03-02']) // => null
 */
export function typicalGapDays(days: readonly Day[]): number | null {
  const gaps = pairs([...new Set(days)].slice(-LATEST), daysBetween);
  return gaps.length < LEAST_GAPS ? null : (median(gaps) ?? null);
}
