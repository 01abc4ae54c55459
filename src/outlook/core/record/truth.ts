import { median } from 'd3-array';
import type { Day } from '../../../shared/day.js';

/**
 * What became of a forecast: the limit was met on a day; the part was changed, or the membranes cleaned, before it was (all that is known is that it would have been
 * later); or nothing of both yet.
 */
export type Truth =
  | { readonly kind: 'met'; readonly on: Day }
  | { readonly kind: 'ended before'; readonly on: Day }
  | { readonly kind: 'open'; readonly until: Day };

/** A life between two changes or recovery cleans that has `limit` as its end. */
export interface ForecastLife {
  readonly limit: { readonly value: number; readonly met: 'at or above' | 'at or below' };
  /** Daily values after the origin, in order */
  readonly after: readonly { readonly day: Day; readonly value: number }[];
  /** The day on which the part was changed or the clean done; null: not yet */
  readonly endedOn: Day | null;
  /** Whether it had lived its life by then, where more tells it than the values after the origin; null: they alone do */
  readonly spent: boolean | null;
  readonly originDay: Day;
}

/** A part that was changed this near its limit had met it for the purpose of a plan: nobody waits for the last percent. Common practice. */
const SPENT_SHARE = 0.95;
/** What the share is judged by: the last values before the end. */
const LAST_VALUES = 3;

/**
 * Finds the day on which a limit was met after a forecast was made, from the values that came later.
 *
 * The limit counts as met on the first day of which the median of its value and the two before it meets it, or on the day of the change where the part had lived its life by then: as `spent` says, or else where the
 * last three values lay within 5 % of the limit. A change or clean before that ends the life without the limit: the forecast is neither right nor wrong, unless it had promised the limit for earlier.
 *
 * @example truthOf({ limit: { value: 100, met: 'at or above' }, originDay: '2026-01-01', endedOn: null, spent: null, after: [{ day: '2026-01-02', value: 90 }, { day: '2026-01-03', value: 101 }, { day: '2026-01-04', value: 104 }] }) // => { "kind": "met", "on": "2026-01-04" }
 */
export function truthOf({ limit, after, endedOn, spent, originDay }: ForecastLife): Truth {
  const lived = after.filter(({ day }) => day > originDay && (endedOn === null || day < endedOn));
  const meets = (value: number) => (limit.met === 'at or above' ? value >= limit.value : value <= limit.value);
  for (const [at, { day, value }] of lived.entries()) {
    const [before, oneBefore] = [lived[at - 2], lived[at - 1]];
    if (before === undefined || oneBefore === undefined) continue;
    if (meets(middleOf(before.value, oneBefore.value, value))) return { kind: 'met', on: day };
  }
  if (endedOn === null) return { kind: 'open', until: lived.at(-1)?.day ?? originDay };
  const last = median(lived.slice(-LAST_VALUES), ({ value }) => value);
  const isNear = last !== undefined && (limit.met === 'at or above' ? last >= SPENT_SHARE * limit.value : last <= limit.value / SPENT_SHARE);
  return { kind: (spent ?? isNear) ? 'met' : 'ended before', on: endedOn };
}

/** One wrong reading does not meet a limit: the middle one of three does. */
const middleOf = (one: number, two: number, three: number): number => Math.max(Math.min(one, two), Math.min(Math.max(one, two), three));
