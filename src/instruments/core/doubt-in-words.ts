import { dayInWords } from '../../shared/day.js';
import { figure } from '../../shared/figure.js';
import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { UNITS, type UnitCode } from '../../shared/units.js';

/**
 * What a comparison found, in one clause: which reading was off, by how much, and when that was seen.
 *
 * Source: own definition.
 *
 * @example errorInWords({ signal: 'feed_pressure', error: 12, unit: 'kPa', when: 'found', day: '2026-11-20' }) // => "feed pressure was found 12 kPa high on 20 Nov 2026"
 * @example errorInWords({ signal: 'temperature', error: -1.5, unit: 'Cel', when: 'left', day: '2026-11-20' }) // => "water temperature was left 1.5 °C low on 20 Nov 2026"
 */
export function errorInWords(check: {
  readonly signal: SignalCode;
  /** Reading less reference */
  readonly error: number;
  readonly unit: UnitCode;
  readonly when: 'found' | 'left';
  readonly day: string;
}): string {
  const { signal, error, unit, when, day } = check;
  const { label } = SIGNALS[signal];
  return `${label.toLowerCase()} was ${when} ${figure(Math.abs(error))} ${UNITS[unit].label} ${error < 0 ? 'low' : 'high'} on ${dayInWords(day, '')}`;
}

/** A time of doubt by the days of the site; `fromDay` null: since the record began, `toDay` null: to this day. */
export interface DoubtfulDays {
  readonly reason: string;
  readonly fromDay: string | null;
  readonly toDay: string | null;
}

/**
 * A time of doubt as a sentence that stands behind a figure.
 *
 * Source: own definition.
 *
 * @example doubtInWords({ reason: 'feed pressure was found 12 kPa high on 20 Nov 2026', fromDay: '2026-08-01', toDay: '2026-11-20' }) // => "Feed pressure was found 12 kPa high on 20 Nov 2026: days from 1 Aug 2026 to 20 Nov 2026 are doubtful."
 * @example doubtInWords({ reason: 'feed pressure was found 12 kPa high on 20 Nov 2026', fromDay: null, toDay: null }) // => "Feed pressure was found 12 kPa high on 20 Nov 2026: all days are doubtful until the next calibration."
 */
export function doubtInWords({ reason, fromDay, toDay }: DoubtfulDays): string {
  const from = fromDay === null ? null : `from ${dayInWords(fromDay, '')}`;
  const to = toDay === null ? null : `to ${dayInWords(toDay, '')}`;
  const days = ['days', from, to].filter((part) => part !== null).join(' ');
  const which = from === null && to === null ? 'all days' : days;
  return `${reason.charAt(0).toUpperCase()}${reason.slice(1)}: ${which} are doubtful${to === null ? ' until the next calibration' : ''}.`;
}
