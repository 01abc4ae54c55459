import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { toStored, UNITS, type UnitCode } from '../../shared/units.js';
import type { CalibrationPoint } from './calibration-figures.js';

export interface CalibrationToCheck {
  /** Of the calibration, else of the position; `null` where neither says it */
  readonly signal: SignalCode | null;
  readonly unit: UnitCode;
  readonly tolerance: number;
  readonly points: readonly CalibrationPoint[];
  /** Local date of the comparison */
  readonly day: string;
  readonly nextOn: string | null;
}

/** A field at fault, as a path within the calibration, and how to mend it. */
export interface CalibrationFault {
  readonly field: string;
  readonly message: string;
}

const MOST_POINTS = 20;
/** Nothing is compared with a reference that only counts or switches. */
const NOT_MEASURED: ReadonlySet<string> = new Set(['state', 'count', 'duration']);

/**
 * What of a calibration cannot be so: no signal, a unit that the signal has not, a tolerance of nothing, no points, a reference far outside of what the signal can be
 * (mostly a wrong unit), a next date that has passed on the day of the comparison.
 *
 * Source: common practice; plausible ranges as in `SIGNALS`.
 *
 * @example calibrationFaults({ signal: 'feed_pressure', unit: 'm3/h', tolerance: 4, points: [{ reference: 0, asFound: 0, asLeft: null }], day: '2026-11-20', nextOn: null }) // => [{ "field": "unit", "message": "m³/h is no unit of feed pressure: choose a unit of pressure, such as kPa" }]
 */
export function calibrationFaults({ signal, unit, tolerance, points, day, nextOn }: CalibrationToCheck): CalibrationFault[] {
  const fault = (field: string, message: string): CalibrationFault => ({ field, message });
  const rest = [
    ...(tolerance > 0 ? [] : [fault('tolerance', `${tolerance} is no tolerance: say how far the instrument may be off, above 0, in the unit of the points`)]),
    ...(points.length >= 1 && points.length <= MOST_POINTS ? [] : [fault('points', `a calibration has 1 to ${MOST_POINTS} points, not ${points.length}`)]),
    ...(nextOn === null || nextOn > day ? [] : [fault('nextOn', `${nextOn} is not after the calibration of ${day}`)]),
  ];
  if (signal === null) return [fault('signal', 'the position does not say what it measures: say which signal this is'), ...rest];
  const { label, dimension, unit: stored, plausible } = SIGNALS[signal];
  if (NOT_MEASURED.has(dimension)) return [fault('signal', `${label} is counted or switched, not measured: choose what the instrument measures`), ...rest];
  if (UNITS[unit].dimension !== dimension) {
    const message = `${UNITS[unit].label} is no unit of ${label.toLowerCase()}: choose a unit of ${dimension}, such as ${UNITS[stored].label}`;
    return [fault('unit', message), ...rest];
  }
  const far = points.flatMap(({ reference }, index) => {
    const value = toStored(reference, unit);
    const [low, high] = plausible;
    const message = `${reference} ${UNITS[unit].label} is not possible for ${label.toLowerCase()}, which lies between ${low} and ${high} ${UNITS[stored].label}: check the unit`;
    return value >= low && value <= high ? [] : [fault(`points/${index}/reference`, message)];
  });
  return [...rest, ...far];
}
