import { fromStored, isUnitCode, toStored, UNITS } from '../../shared/units.js';

/** Far more digits than a gauge has, so that a limit is not missed by the last bit of a conversion. */
const DIGITS = 12;

/**
 * A value that was read, in the unit that the step asks for, to be held against its limits; null where its unit measures something else. A step without a unit, and an
 * answer without one, are in the same unit.
 *
 * @example inUnitOfStep(1.2, 'bar', 'kPa') // => 120
 * @example inUnitOfStep(0.29, 'bar', 'kPa') // => 29
 * @example inUnitOfStep(12, 'Cel', 'kPa') // => null
 */
export function inUnitOfStep(value: number, unit: string | null | undefined, stepUnit: string | null): number | null {
  if (unit == null || stepUnit === null || unit === stepUnit) return value;
  if (!isUnitCode(unit) || !isUnitCode(stepUnit) || UNITS[unit].dimension !== UNITS[stepUnit].dimension) return null;
  return Number(fromStored(toStored(value, unit), stepUnit).toPrecision(DIGITS));
}
