/** Surface tension of water in mN/m by temperature. */
const SURFACE_TENSION: readonly (readonly [celsius: number, mNm: number])[] = [
  [5, 74.94],
  [10, 74.22],
  [20, 72.74],
  [30, 71.2],
];

/** Of a pore of 3 µm, in kPa for each mN/m: 4 σ / d. */
const KPA_PER_MN_M = 4 / 3;

/**
 * Surface tension of water against air, in mN/m, between the values of the table; beyond its ends, the nearest two are drawn out.
 *
 * Source: handbook values at 10, 20 and 30 °C; at 5 °C from IAPWS R1-76.
 *
 * @example surfaceTension(20) // => 72.74
 */
export function surfaceTension(temperatureC: number): number {
  const upper = Math.max(
    1,
    SURFACE_TENSION.findIndex(([celsius], at) => at > 0 && (temperatureC <= celsius || at === SURFACE_TENSION.length - 1)),
  );
  const [[t0, s0], [t1, s1]] = [SURFACE_TENSION[upper - 1] as readonly [number, number], SURFACE_TENSION[upper] as readonly [number, number]];
  return s0 + ((temperatureC - t0) / (t1 - t0)) * (s1 - s0);
}

export interface LeastPressureBasis {
  readonly temperatureC: number;
  /** 1 is on the safe side */
  readonly poreShape: number;
  /** Of water on the membrane; 0 is on the safe side */
  readonly contactAngleDeg: number;
  /** Static head on the wet side */
  readonly backPressureKpa: number;
}

/**
 * Least pressure of a pressure-decay test in kPa, at which air passes a defect of 3 µm: 4 κ σ cos θ / d + back pressure. It must still be there when the test ends.
 *
 * Source: resolution of 3 µm, 40 CFR 141.719(b) (read as Wis. Adm. Code NR 810.45(2)); the equation P = 0.193 κ σ cos θ + BP in psi from memory of the same guidance, its factor
 * confirmed by 4 · 10⁻³ / 3 · 10⁻⁶ Pa for each mN/m.
 *
 * @example leastTestPressureKpa({ temperatureC: 20, poreShape: 1, contactAngleDeg: 0, backPressureKpa: 0 }) // => 96.98666666666666
 */
export function leastTestPressureKpa({ temperatureC, poreShape, contactAngleDeg, backPressureKpa }: LeastPressureBasis): number {
  return KPA_PER_MN_M * poreShape * surfaceTension(temperatureC) * Math.cos((contactAngleDeg * Math.PI) / 180) + backPressureKpa;
}
