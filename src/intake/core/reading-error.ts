import { UNITS, type UnitCode } from '../../shared/units.js';

/**
 * Reading error of a gauge in the stored unit: half its smallest division. Where the division is not known, the last digit that the person wrote stands for
 * it, which is rather too wide than too narrow. The offset of a unit (degrees Fahrenheit) does not touch an error.
 *
 * Source: common practice.
 *
 * @example readingError(0.1, '2.3', 'bar') // => 5
 * @example readingError(null, '2.35', 'bar') // => 0.5
 * @example readingError(null, '140', 'kPa') // => 0.5
 */
export function readingError(smallestDivision: number | null, written: string, unit: UnitCode): number {
  return (smallestDivision ?? lastDigit(written)) * 0.5 * UNITS[unit].factor;
}

function lastDigit(written: string): number {
  const [, fraction = '', exponent = '0'] = /^[^.,eE]*(?:[.,](\d*))?(?:[eE]([+-]?\d+))?$/.exec(written.trim()) ?? [];
  return 10 ** (Number(exponent) - fraction.length);
}
