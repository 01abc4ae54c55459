/** Gauge pressures in kPa. */
export interface AirFlowBasis {
  readonly testKpa: number;
  readonly backPressureKpa: number;
  readonly atmosphericKpa: number;
  /** Highest transmembrane pressure in operation, not the test pressure */
  readonly tmpKpa: number;
  readonly temperatureC: number;
}

const PSI = 6.894757;
const fahrenheit = (celsius: number) => celsius * 1.8 + 32;

/**
 * Air-liquid conversion ratio of a breach with turbulent flow (short path, wide bore: broken near the potting): how much more air passes it in the test than water in
 * operation. 170 Y √((Pt − BP)(Pt + Patm) / ((460 + T) TMP)) in psi and °F. `netExpansion` Y lies between 0.6 and 0.9. It is mostly the smaller of the two.
 *
 * Source: equation from memory of the guidance to the membrane filtration rule; its factor derived again from the usual pipe formulas as 169.85.
 *
 * @example airLiquidRatioTurbulent({ testKpa: 100, backPressureKpa: 0, atmosphericKpa: 101.325, tmpKpa: 50, temperatureC: 20 }, 0.75) // => 42.403098526323895
 */
export function airLiquidRatioTurbulent({ testKpa, backPressureKpa, atmosphericKpa, tmpKpa, temperatureC }: AirFlowBasis, netExpansion: number): number {
  const driving = ((testKpa - backPressureKpa) / PSI) * ((testKpa + atmosphericKpa) / PSI);
  return 170 * netExpansion * Math.sqrt(driving / ((460 + fahrenheit(temperatureC)) * (tmpKpa / PSI)));
}

/**
 * Air-liquid conversion ratio of a breach with laminar flow (long path, narrow bore): 527 ΔPeff (175 − 2.71 T + 0.0137 T²) / (TMP (460 + T)) in psi and °F, with
 * ΔPeff = (Pt − BP)((Pt + Patm) + (BP + Patm)) / (2 (BP + Patm)). Taken with the back pressure in the divisor, which gives the lower ratio and is on the safe side.
 *
 * Source: equation from memory of the guidance to the membrane filtration rule; its polynomial is the viscosity of water over that of air.
 *
 * @example airLiquidRatioLaminar({ testKpa: 100, backPressureKpa: 0, atmosphericKpa: 101.325, tmpKpa: 50, temperatureC: 20 }) // => 161.19348672962042
 */
export function airLiquidRatioLaminar({ testKpa, backPressureKpa, atmosphericKpa, tmpKpa, temperatureC }: AirFlowBasis): number {
  const [test, back, air] = [testKpa / PSI, backPressureKpa / PSI, atmosphericKpa / PSI];
  const effective = ((test - back) * (test + air + back + air)) / (2 * (back + air));
  const t = fahrenheit(temperatureC);
  return (527 * effective * (175 - 2.71 * t + 0.0137 * t * t)) / ((tmpKpa / PSI) * (460 + t));
}

/**
 * Air-liquid conversion ratio where nobody knows how the air flows through the breach: the smaller of the turbulent and the laminar one, which proves less.
 *
 * Source: as the two that it is chosen from.
 *
 * @example airLiquidRatio({ testKpa: 100, backPressureKpa: 0, atmosphericKpa: 101.325, tmpKpa: 50, temperatureC: 20 }, 0.75) // => 42.403098526323895
 */
export function airLiquidRatio(basis: AirFlowBasis, netExpansion: number): number {
  return Math.min(airLiquidRatioTurbulent(basis, netExpansion), airLiquidRatioLaminar(basis));
}
