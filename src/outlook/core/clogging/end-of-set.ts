import { median } from 'd3-array';
import { endOfLife } from '../../../condition/core/end-of-life.js';
import { type Day, daysBetween } from '../../../shared/day.js';

/** A set that was removed at this share of the limit or above has lived its life; below, it was changed early and lived at least so long. */
const SPENT_SHARE = 0.9;
const LAST_VALUES = 3;
/** Last values within this share of the life before the change tell how it stood then: clogging is steep at its end. */
const TELLS_SHARE = 0.05;

export interface LastOfSet {
  readonly fittedOn: Day;
  readonly removedOn: Day;
  /** Why it came out, in the words of whoever changed it */
  readonly reason: string | null;
  readonly limitKpa: number;
  /** Daily pressure drops, in order */
  readonly values: readonly { readonly day: Day; readonly dpKpa: number }[];
}

/**
 * Whether a set of cartridges had lived its life when it was changed, or would have lived longer.
 *
 * The middle of its last three values tells, where they lie within the last twentieth of its life: `limit` from 90 % of the limit on. Where it was read more seldom than that, or lived but a few weeks, its steep end
 * went unread, and what people wrote as the reason tells, unless the values had come to 90 % already.
 *
 * @example endOfSet({ fittedOn: '2025-11-01', removedOn: '2026-02-01', reason: null, limitKpa: 100, values: [{ day: '2026-01-30', dpKpa: 95 }, { day: '2026-01-31', dpKpa: 97 }] }) // => "limit"
 * @example endOfSet({ fittedOn: '2025-11-01', removedOn: '2026-02-01', reason: 'pressure drop at the limit', limitKpa: 100, values: [{ day: '2026-01-18', dpKpa: 50 }, { day: '2026-01-25', dpKpa: 64 }] }) // => "limit"
 */
export function endOfSet({ fittedOn, removedOn, reason, limitKpa, values }: LastOfSet): 'limit' | 'censored' {
  const last = values.slice(-LAST_VALUES);
  const middle = median(last, ({ dpKpa }) => dpKpa) ?? 0;
  if (middle >= SPENT_SHARE * limitKpa || (last.at(-1)?.dpKpa ?? 0) >= limitKpa) return 'limit';
  const isRead = last[0] !== undefined && daysBetween(last[0].day, removedOn) <= TELLS_SHARE * daysBetween(fittedOn, removedOn);
  return !isRead && endOfLife({ removed: true, reason, brokeDown: false }) === 'failed' ? 'limit' : 'censored';
}
