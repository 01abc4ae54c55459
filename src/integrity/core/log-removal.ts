/** What a decay of pressure is turned into a log removal value with. */
export interface RemovalBasis {
  /** Design filtrate flow of the unit under test */
  readonly designFlowLMin: number;
  /** Air under pressure, pipework included */
  readonly airVolumeL: number;
  readonly atmosphericKpa: number;
  readonly airLiquidRatio: number;
  /** Suspended solids at the membrane over those in the feed; 1 for dead-end filtration */
  readonly concentration: number;
}

/**
 * Log removal value that a decay of pressure proves: log10(Qp · ALCR · Patm / (PDR · Vsys · VCF)). The full decay counts: what diffuses through wet pores is not taken off, which is on
 * the safe side. A decay of 0 or less proves nothing: `null`.
 *
 * Source: 40 CFR 141.719(b) by the symbols of Wis. Adm. Code NR 810.45(2); the equation from memory, its algebra checked.
 *
 * @example logRemoval(0.5, { designFlowLMin: 600, airVolumeL: 250, atmosphericKpa: 101.325, airLiquidRatio: 40, concentration: 1 }) // => 4.28901784111728
 */
export function logRemoval(decayKpaMin: number, basis: RemovalBasis): number | null {
  if (!(decayKpaMin > 0)) return null;
  return Math.log10(unitRemoval(basis) / decayKpaMin);
}

/**
 * Highest decay in kPa/min at which the credit is still proved: the upper control limit of the test.
 *
 * Source: as `logRemoval`.
 *
 * @example controlLimitKpaMin(4, { designFlowLMin: 600, airVolumeL: 250, atmosphericKpa: 101.325, airLiquidRatio: 40, concentration: 1 }) // => 0.97272
 */
export function controlLimitKpaMin(creditLrv: number, basis: RemovalBasis): number {
  return unitRemoval(basis) / 10 ** creditLrv;
}

function unitRemoval({ designFlowLMin, airVolumeL, atmosphericKpa, airLiquidRatio, concentration }: RemovalBasis): number {
  return (designFlowLMin * airLiquidRatio * atmosphericKpa) / (airVolumeL * concentration);
}
