import type { Day } from '../../shared/day.js';
import { localDays } from './local-day.js';

/** A time in which a signal rests on an instrument that was out of tolerance. Unset: since the record began, or until the next calibration. */
export interface DoubtfulTime {
  readonly signal: string;
  readonly fromAt: Date | null;
  readonly toAt: Date | null;
}

/**
 * Finds the signals that are doubtful on a day of a site. A day counts when any moment of it lies within the time of doubt; each signal is named once, in the order of its
 * name.
 *
 * Source: own definition.
 *
 * @example doubtfulSignals([{ signal: 'feed_pressure', fromAt: null, toAt: new Date('2026-11-20T08:00:00Z') }], 'UTC')('2026-11-20') // => ["feed_pressure"]
 * @example doubtfulSignals([{ signal: 'feed_pressure', fromAt: null, toAt: new Date('2026-11-20T08:00:00Z') }], 'UTC')('2026-11-21') // => []
 */
export function doubtfulSignals(times: readonly DoubtfulTime[], timeZone: string): (day: Day) => string[] {
  const dayOf = localDays(timeZone);
  const spans = times.map(({ signal, fromAt, toAt }) => ({
    signal,
    from: fromAt === null ? null : dayOf(fromAt.getTime()).day,
    to: toAt === null ? null : dayOf(toAt.getTime()).day,
  }));
  return (day) => [...new Set(spans.filter(({ from, to }) => (from === null || day >= from) && (to === null || day <= to)).map(({ signal }) => signal))].sort();
}
