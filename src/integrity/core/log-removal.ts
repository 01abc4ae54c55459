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
 * Water in L/min that would pass in operation through the breach that lets the test pressure fall: PDR · Vsys / (Patm · ALCR).
 *
 * Source: the equation from memory of the guidance to the membrane filtration rule; as a volume of gas at constant temperature it follows from Boyle’s law.
 *
 * @example breachFlowLMin(0.5, { airVolumeL: 250, atmosphericKpa: 101.325, airLiquidRatio: 40 }) // => 0.030841351098
 */
export function breachFlowLMin(decayKpaMin: number, basis: Pick<RemovalBasis, 'airVolumeL' | 'atmosphericKpa' | 'airLiquidRatio'>): number {
  const { airVolumeL, atmosphericKpa, airLiquidRatio } = basis;
  return (decayKpaMin * airVolumeL) / (atmosphericKpa * airLiquidRatio);
}

/**
 * Log removal value that a decay of pressure proves: log10(Qp / (VCF · Qbreach)), which is log10(Qp · ALCR · Patm / (PDR · Vsys · VCF)). The full decay counts: what diffuses
 * through wet pores is not taken off, which is on the safe side. A decay of 0 or less proves nothing: `null`.
 *
 * Source: 40 CFR 141.719(b) by the symbols of Wis. Adm. Code NR 810.45(2); the equation from memory, its algebra checked.
 *
 * @example logRemoval(0.5, { designFlowLMin: 600, airVolumeL: 250, atmosphericKpa: 101.325, airLiquidRatio: 40, concentration: 1 }) // => 4.28901784111728
 */
export function logRemoval(decayKpaMin: number, basis: RemovalBasis): number | null {
  if (!(decayKpaMin > 0)) return null;
  return Math.log10(basis.designFlowLMin / (basis.concentration * breachFlowLMin(decayKpaMin, basis)));
}

/**
 * Highest decay in kPa/min at which the credit is still proved: the upper control limit of the test.
 *
 * Source: as `logRemoval`.
 *
 * @example controlLimitKpaMin(4, { designFlowLMin: 600, airVolumeL: 250, atmosphericKpa: 101.325, airLiquidRatio: 40, concentration: 1 }) // => 0.97272
 */
export function controlLimitKpaMin(creditLrv: number, basis: RemovalBasis): number {
  const { designFlowLMin, airLiquidRatio, atmosphericKpa, airVolumeL, concentration } = basis;
  return (designFlowLMin * airLiquidRatio * atmosphericKpa) / (10 ** creditLrv * airVolumeL * concentration);
}
