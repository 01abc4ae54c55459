import { type Day, dayInWords, dayPlus } from '../../shared/day.js';
import { OUTLOOK_LIMITS, type OutlookLimit } from '../../shared/upkeep-terms.js';
import type { DatedLimit } from './due-date.js';

export interface OutlookSays {
  readonly limitKind: OutlookLimit;
  readonly kind: 'outlook' | 'limit-met' | 'too-little-data';
  readonly originDay: Day;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
}

/** Work may begin this many days before the day to do it: earlier, life is thrown away. Common practice. */
const EARLY_DAYS = 14;

/**
 * What an outlook asks for: the work is best done by the day up to which the limit is met in 1 case of 10, and no later than the day by which it is as likely met as not. One that
 * lies beyond the horizon asks for nothing, and so does one that could not be made.
 *
 * Source: own choice of the two days.
 *
 * @example limitOfOutlook({ limitKind: 'permeability', kind: 'outlook', originDay: '2025-03-01', p10Days: 20.5, p50Days: 33 }, '2025-03-02').dueOn // => "2025-03-21"
 * @example limitOfOutlook({ limitKind: 'permeability', kind: 'too-little-data', originDay: '2025-03-01', p10Days: null, p50Days: null }, '2025-03-02').dueOn // => null
 */
export function limitOfOutlook({ limitKind, kind, originDay, p10Days, p50Days }: OutlookSays, today: Day): DatedLimit {
  const limit = OUTLOOK_LIMITS[limitKind];
  const base = { from: 'outlook', limit } as const;
  if (kind === 'limit-met') {
    const inWords = `the ${limit} has met its limit`;
    return { ...base, dueOn: originDay, earliestOn: dayPlus(originDay, -EARLY_DAYS), latestOn: originDay, inWords };
  }
  if (kind !== 'outlook' || p10Days === null) {
    const inWords = kind === 'outlook' ? `the outlook of the ${limit} sees no need` : `no outlook of the ${limit} can be made yet`;
    return { ...base, dueOn: null, earliestOn: null, latestOn: null, inWords };
  }
  const dueOn = dayPlus(originDay, Math.floor(p10Days));
  const latestOn = p50Days === null ? dueOn : dayPlus(originDay, Math.floor(p50Days));
  return {
    ...base,
    dueOn,
    earliestOn: dayPlus(dueOn, -EARLY_DAYS),
    latestOn,
    inWords: `the outlook of the ${limit} asks for it by ${dayInWords(dueOn, today)}`,
  };
}
