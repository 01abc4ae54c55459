/** At about 20 °C, in SI. From memory; they give the order of magnitude and no more. */
const DIFFUSION_M2_S = 2e-9;
const SOLUBILITY_MOL_M3_PA = 6.4e-6;
const OPEN_SHARE_OVER_TORTUOSITY = 0.25;
const WALL_M = 200e-6;
const GAS_CONSTANT = 8.314;
const ROOM_K = 293.15;

/**
 * Decay of the test pressure in kPa/min of a sound unit, by air that dissolves in the water of its pores and diffuses through: A (ε/τ) (D H / z) (Pt − BP) R T / Vsys. On large
 * units it is not negligible. It says what to expect when no baseline was measured; it is never taken off a decay. Area and volume are above 0.
 *
 * Source: Fick's law with Henry's law; constants from memory, so the order of magnitude only.
 *
 * @example Math.round(100 * diffusiveDecayKpaMin({ areaM2: 600, airVolumeL: 250, overPressureKpa: 100 })) // => 56
 */
export function diffusiveDecayKpaMin({
  areaM2,
  airVolumeL,
  overPressureKpa,
}: {
  readonly areaM2: number;
  readonly airVolumeL: number;
  /** Test pressure above the back pressure */
  readonly overPressureKpa: number;
}): number {
  const molesPerS = (areaM2 * OPEN_SHARE_OVER_TORTUOSITY * DIFFUSION_M2_S * SOLUBILITY_MOL_M3_PA * overPressureKpa * 1000) / WALL_M;
  const pascalsPerS = (molesPerS * GAS_CONSTANT * ROOM_K) / (airVolumeL / 1000);
  return (pascalsPerS * 60) / 1000;
}
