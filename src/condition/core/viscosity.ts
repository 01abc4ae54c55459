/**
 * Thermometers are read to a tenth or a hundredth of a degree, so that the same few hundred temperatures come again and again: what was computed once is
 * kept by hundredths of a degree, NaN where nothing was asked yet.
 */
const [COLDEST_C, HOTTEST_C, PER_DEGREE] = [-20, 110, 100];
const KNOWN = new Float64Array((HOTTEST_C - COLDEST_C) * PER_DEGREE + 1).fill(Number.NaN);

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
  const hundredths = Math.round(temperatureC * PER_DEGREE);
  // Between two hundredths, and outside of what is kept, it is computed each time.
  if (hundredths / PER_DEGREE !== temperatureC) return viscosityAt(temperatureC);
  const place = hundredths - COLDEST_C * PER_DEGREE;
  const known = KNOWN[place] ?? Number.NaN;
  if (!Number.isNaN(known)) return known;
  const viscosity = viscosityAt(temperatureC);
  KNOWN[place] = viscosity;
  return viscosity;
}

function viscosityAt(temperatureC: number): number {
  const t = (temperatureC + 273.15) / 300;
  return (280.68 * t ** -1.9 + 511.45 * t ** -7.7 + 61.131 * t ** -19.6 + 0.45903 * t ** -40) / 1000;
}
