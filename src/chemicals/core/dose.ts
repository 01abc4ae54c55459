/**
 * Neat product that gives a dose to a flow, L/h: what a dosing pump must deliver. Dose (mg/L) x flow (m3/h) / strength (g/L). Strength is that of today and not that of the
 * label. 0 flow needs 0; a product without strength gives `null`.
 *
 * Source: mass balance; common practice.
 *
 * @example neatLitresPerHour(2, 20, 125) // => 0.32
 */
export function neatLitresPerHour(doseMgL: number, flowM3h: number, strengthGL: number): number | null {
  return strengthGL > 0 ? (doseMgL * flowM3h) / strengthGL : null;
}

/**
 * Dose that was really applied, mg/L, from the product used and the water treated: product (L) x strength (g/L) / water (m3). `null` where no water ran.
 *
 * Source: mass balance; common practice.
 *
 * @example appliedDoseMgL(40, 125, 2500) // => 2
 */
export function appliedDoseMgL(usedL: number, strengthGL: number, treatedM3: number): number | null {
  return treatedM3 > 0 ? (usedL * strengthGL) / treatedM3 : null;
}

/**
 * Product for a batch of a given strength, L: how much to pour into a CEB or CIP tank. Target (mg/L) x volume (m3) / strength (g/L). `null` for a product without strength.
 *
 * Acid or caustic to a pH needs more than this in real water, which is buffered; plan from the litres that batches took.
 *
 * Source: mass balance; common practice.
 *
 * @example batchLitres(500, 1, 125) // => 4
 */
export function batchLitres(targetMgL: number, volumeM3: number, strengthGL: number): number | null {
  return neatLitresPerHour(targetMgL, volumeM3, strengthGL);
}

/**
 * Parts of water to one part of product that dilute it to a target: strength / target - 1, in any unit of strength. 0 where the product is no stronger than the target.
 *
 * Source: C1 V1 = C2 V2, volumes taken as additive.
 *
 * @example waterParts(5, 0.1) // => 49
 */
export function waterParts(strength: number, target: number): number {
  return Math.max(0, strength / target - 1);
}

/**
 * Powder to a litre of water, g, for a target in per cent: 1000 target / active share.
 *
 * Source: US CDC, chlorine solution preparation (appendix E).
 *
 * @example powderGramsPerLitre(0.5, 35) // => 14.2857143
 */
export function powderGramsPerLitre(targetPercent: number, activePercent: number): number {
  return (1000 * targetPercent) / activePercent;
}
