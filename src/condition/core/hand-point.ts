import type { MembranePressures, TmpBasis } from '../../intake/core/tmp.js';
import { viscosityMpaS } from './viscosity.js';

export type CycleThird = 'first' | 'middle' | 'last';

interface Range {
  readonly low: number;
  readonly high: number;
}

/** Share of permeability that a cycle loses from its start to its end, where nothing better is known (common practice: 5 to 15 %). */
const WITHIN_CYCLE_SHARE = 0.1;

/**
 * Reading error of a transmembrane pressure that is made up of gauges, in kPa: the errors of its gauges, each by its weight, in quadrature. The error of one
 * gauge is half of its smallest division. A gauge that the scheme does not use or that was not read adds nothing.
 *
 * Source: propagation of independent errors (common practice).
 *
 * @example tmpErrorKpa({ feedKpa: 3, filtrateKpa: 4, concentrateKpa: null, tmpKpa: null }, { scheme: 'dead-end', tmpFrom: 'pressures' }) // => 5
 */
export function tmpErrorKpa(errors: MembranePressures, { scheme, tmpFrom }: Pick<TmpBasis, 'scheme' | 'tmpFrom'>): number {
  if (tmpFrom === 'measured') return errors.tmpKpa ?? 0;
  const weight = scheme === 'cross-flow' ? 0.5 : 1;
  return Math.hypot((errors.feedKpa ?? 0) * weight, errors.filtrateKpa ?? 0, scheme === 'cross-flow' ? (errors.concentrateKpa ?? 0) * weight : 0);
}

/**
 * Range of a permeability that a person read from gauges: what lies between the marks of the gauges could be the truth.
 *
 * Relative errors of flow, transmembrane pressure and temperature correction in quadrature, times the permeability. Not readable where the error of the
 * pressure is as large as the pressure itself.
 *
 * Source: propagation of independent errors (common practice).
 *
 * @example permeabilityRange(200, { flowM3h: 30, tmpKpa: 30, temperatureC: 20 }, { flowM3h: 0.9, tmpKpa: 1.2, temperatureC: 0 }) // => { "low": 190, "high": 210 }
 */
export function permeabilityRange(
  permeabilityLmhBar: number,
  read: { flowM3h: number; tmpKpa: number; temperatureC: number },
  error: { flowM3h: number; tmpKpa: number; temperatureC: number },
): Range | { readonly kind: 'not-readable' } {
  if (!(read.flowM3h > 0) || !(read.tmpKpa > error.tmpKpa)) return { kind: 'not-readable' };
  const correctionShare = viscosityMpaS(read.temperatureC - error.temperatureC) / viscosityMpaS(read.temperatureC) - 1;
  const share = Math.hypot(error.flowM3h / read.flowM3h, error.tmpKpa / read.tmpKpa, correctionShare);
  return { low: Math.max(0, permeabilityLmhBar * (1 - share)), high: permeabilityLmhBar * (1 + share) };
}

/**
 * The third of a filtration cycle in which a reading was taken; `null` where the time since the backwash or the length of the cycle is not known, or they
 * contradict each other.
 *
 * @example thirdOfCycle(25, 30) // => "last"
 */
export function thirdOfCycle(minutesSinceBackwash: number | null, cycleMinutes: number | null): CycleThird | null {
  if (minutesSinceBackwash === null || cycleMinutes === null || !(cycleMinutes > 0)) return null;
  const share = minutesSinceBackwash / cycleMinutes;
  if (share < 0 || share > 1) return null;
  return share < 1 / 3 ? 'first' : share < 2 / 3 ? 'middle' : 'last';
}

/**
 * The range of a reading as it may be compared with another one. Two readings in the same third of their cycles compare as they are; else one may have been
 * taken on a clean and the other on a loaded membrane, and the range is widened by what a cycle usually loses, 10 %.
 *
 * @example comparableRange({ low: 190, high: 210 }, 'first', 'first') // => { "low": 190, "high": 210 }
 * @example comparableRange({ low: 190, high: 210 }, 'first', null) // => { "low": 171, "high": 231 }
 */
export function comparableRange(range: Range, own: CycleThird | null, other: CycleThird | null): Range {
  if (own !== null && own === other) return range;
  return { low: range.low * (1 - WITHIN_CYCLE_SHARE), high: range.high * (1 + WITHIN_CYCLE_SHARE) };
}
