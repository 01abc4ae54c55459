export const BEARING_KINDS = { 'deep-groove ball': 10, 'cylindrical roller': 5, 'needle roller': 5, 'spherical roller': 1, 'tapered roller': 1 } as const;
export type BearingKind = keyof typeof BEARING_KINDS;

export interface Bearing {
  readonly kind: BearingKind;
  readonly speedPerMin: number;
  readonly boreMm: number;
  /** Of the housing at the bearing; up to 55 degC nothing is taken off */
  readonly temperatureC?: number;
}

/**
 * Hours after which a rolling bearing is greased again, as a start for the run-hour limit of a greasing rule: k (14e6 / (n sqrt d) - 4 d) f, with n in revolutions per
 * minute, d the bore in mm, k 10 for deep-groove ball, 5 for cylindrical and needle, 1 for spherical and tapered roller bearings, and f by temperature: 1 up to 55 degC, 0.5
 * up to 70, 0.25 up to 85, 0.125 up to 100; hotter, grease is not the question. Dirt, shaking and upright shafts shorten it further. The maker's plate wins.
 *
 * Source: bearing-lubrication texts, as quoted in a practitioner's page; temperature steps from the same.
 *
 * @example relubricationHours({ kind: 'deep-groove ball', speedPerMin: 2900, boreMm: 45 }) // => { "kind": "hours", "hours": 5396.540617240702 }
 * @example relubricationHours({ kind: 'spherical roller', speedPerMin: 20000, boreMm: 300 }) // => { "kind": "no-interval", "why": "too fast or too large for grease by this rule" }
 */
export function relubricationHours({
  kind,
  speedPerMin,
  boreMm,
  temperatureC = 55,
}: Bearing): { kind: 'hours'; hours: number } | { kind: 'no-interval'; why: string } {
  const byTemperature = [55, 70, 85, 100].findIndex((limit) => temperatureC <= limit);
  if (byTemperature === -1) return { kind: 'no-interval', why: 'hotter than 100 °C: ask the maker' };
  if (!(speedPerMin > 0) || !(boreMm > 0)) return { kind: 'no-interval', why: 'speed and bore must be above 0' };
  const hours = BEARING_KINDS[kind] * (14e6 / (speedPerMin * Math.sqrt(boreMm)) - 4 * boreMm) * 0.5 ** byTemperature;
  return hours > 0 ? { kind: 'hours', hours } : { kind: 'no-interval', why: 'too fast or too large for grease by this rule' };
}
