import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import type { StepKind } from '../../shared/task-sheet.js';
import { isUnitCode, UNITS } from '../../shared/units.js';

export interface EnteredStep {
  readonly kind: StepKind;
  readonly signal?: string | null;
  readonly unit?: string | null;
  readonly low?: number | null;
  readonly high?: number | null;
}

/**
 * What is wrong with the steps of a task sheet, each with its place in the list, its field and how to mend it: a reading needs a unit, one that its signal is read in; only a
 * reading has limits; the lower limit is the lower.
 *
 * @example stepFaults([{ kind: 'reading', signal: 'tmp', unit: 'm3/h' }]) // => [{ "at": 0, "field": "unit", "message": "the signal tmp is a pressure and is not read in m3/h: give a unit of pressure, such as kPa" }]
 */
export function stepFaults(steps: readonly EnteredStep[]): { readonly at: number; readonly field: string; readonly message: string }[] {
  return steps.flatMap(({ kind, signal, unit, low, high }, at) => {
    const fault = (field: string, message: string) => [{ at, field, message }];
    if (kind !== 'reading') {
      const field = Object.entries({ signal, unit, low, high }).find(([, value]) => value != null)?.[0];
      return field === undefined ? [] : fault(field, `only a step of the kind reading has a ${field}: leave it out, or make it a reading`);
    }
    if (unit == null) return fault('unit', 'a reading needs its unit, as a UCUM code such as kPa; 1 for a plain number');
    if (signal != null && isSignalCode(signal)) {
      const { dimension, unit: stored } = SIGNALS[signal];
      if (!isUnitCode(unit) || UNITS[unit].dimension !== dimension)
        return fault('unit', `the signal ${signal} is a ${dimension} and is not read in ${unit}: give a unit of ${dimension}, such as ${stored}`);
    }
    return low != null && high != null && low > high ? fault('low', `${low} must not be above high, which is ${high}`) : [];
  });
}
