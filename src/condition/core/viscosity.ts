/** Cycles are written down to a tenth of a degree, so that the same few hundred temperatures come again and again. */
const KNOWN = new Map<number, number>();
const MOST_KNOWN = 1000;

/**
 * Dynamic viscosity of liquid water at 0.1 MPa, in mPa s. Cold water is thicker and needs more pressure for the same flux; every permeability is freed
 * of that before it is compared.
 *
 * In µPa s, with t = (T + 273.15 K) / 300 K: 280.68 t^-1.9 + 511.45 t^-7.7 + 61.131 t^-19.6 + 0.45903 t^-40.
 * Stated for -20 to 110 °C; the gates of a cycle keep far inside of that. The pressures of ultrafiltration do not change it noticeably.
 *
 * Source: IAPWS SR6-08, revised supplementary release on properties of liquid water at 0.1 MPa (coefficients from memory, checked against printed tables
 * in the spec).
 *
 * @example viscosityMpaS(20) // => 1.0015672646
 */
export function viscosityMpaS(temperatureC: number): number {
  const known = KNOWN.get(temperatureC);
  if (known !== undefined) return known;
  const t = (temperatureC + 273.15) / 300;
  const viscosity = (280.68 * t ** -1.9 + 511.45 * t ** -7.7 + 61.131 * t ** -19.6 + 0.45903 * t ** -40) / 1000;
  if (KNOWN.size >= MOST_KNOWN) KNOWN.clear();
  KNOWN.set(temperatureC, viscosity);
  return viscosity;
}
