import { type Day, daysBetween } from '../../../shared/day.js';
import type { Truth } from './truth.js';

/** What a stored outlook had said; null days are beyond its horizon. */
export interface Forecast {
  readonly originDay: Day;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
}

/**
 * How right a forecast was.
 *
 * - `scored`: the limit was met. `errorDays` is the forecast less the truth (positive: said later than it came), null where the forecast was beyond its horizon;
 *   `inside` whether the truth lay from P10 to P90.
 * - `early change`: the life ended before the limit, so that the truth is later than `lastedDays`. It counts neither for nor against, unless the interval had passed by then
 *   (`saidTooEarly`).
 * - `open`: nothing has come yet; `saidTooEarly` where the interval has passed.
 */
export type Score =
  | { readonly kind: 'scored'; readonly truthDays: number; readonly errorDays: number | null; readonly inside: boolean }
  | { readonly kind: 'early change'; readonly lastedDays: number; readonly saidTooEarly: boolean }
  | { readonly kind: 'open'; readonly lastedDays: number; readonly saidTooEarly: boolean };

/**
 * Compares a forecast with what came. A day counts as inside where it rounds into the interval: forecasts are in fractions of days, the truth is a day.
 *
 * @example scoreOf({ originDay: '2026-01-01', p10Days: 8, p50Days: 12, p90Days: 20 }, { kind: 'met', on: '2026-01-11' }) // => { "kind": "scored", "truthDays": 10, "errorDays": 2, "inside": true }
 */
export function scoreOf({ originDay, p10Days, p50Days, p90Days }: Forecast, truth: Truth): Score {
  if (truth.kind === 'met') {
    const truthDays = daysBetween(originDay, truth.on);
    const inside = Math.floor(p10Days ?? Number.POSITIVE_INFINITY) <= truthDays && truthDays <= Math.ceil(p90Days ?? Number.POSITIVE_INFINITY);
    return { kind: 'scored', truthDays, errorDays: p50Days === null ? null : p50Days - truthDays, inside };
  }
  const lastedDays = daysBetween(originDay, truth.kind === 'open' ? truth.until : truth.on);
  const saidTooEarly = p90Days !== null && Math.ceil(p90Days) < lastedDays;
  return { kind: truth.kind === 'open' ? 'open' : 'early change', lastedDays, saidTooEarly };
}
