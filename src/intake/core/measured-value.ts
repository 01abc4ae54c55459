import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import { toStored, UNITS, type UnitCode } from '../../shared/units.js';

export type MeasuredValue =
  | { readonly kind: 'measured'; readonly value: number }
  /** Why it cannot be, to be put behind the value */
  | { readonly kind: 'impossible'; readonly reason: string };

/** Whether values of the signal can be given in the unit. */
export function unitFits(signal: SignalCode, unit: UnitCode): boolean {
  return UNITS[unit].dimension === SIGNALS[signal].dimension;
}

/**
 * A value of a signal in its stored unit, checked for meaning: the unit must measure what the signal measures, and the value must be one that a plant of
 * this kind can show. A value outside of that is a wrong unit or a broken wire, and would spoil every median it went into.
 *
 * @example measuredValue('feed_pressure', 1.2, 'bar') // => { "kind": "measured", "value": 120 }
 * @example measuredValue('temperature', 212, 'Cel').kind // => "impossible"
 * @example measuredValue('temperature', 12, 'bar').reason // => "bar does not measure a temperature"
 */
export function measuredValue(signal: SignalCode, value: number, unit: UnitCode): MeasuredValue {
  if (!unitFits(signal, unit)) return { kind: 'impossible', reason: `${unit} does not measure a ${SIGNALS[signal].dimension}` };
  const stored = toStored(value, unit);
  const [low, high] = SIGNALS[signal].plausible;
  if (stored >= low && stored <= high) return { kind: 'measured', value: stored };
  return {
    kind: 'impossible',
    reason: `is not possible for ${SIGNALS[signal].label.toLowerCase()}, which lies between ${low} and ${high} ${SIGNALS[signal].unit}`,
  };
}
