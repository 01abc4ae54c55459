/** Pumps for feed water deliver about so much of what they draw. Common practice: 0.5 to 0.7 for small ones, motor included. */
const PUMP_EFFICIENCY = 0.6;
const KJ_PER_KWH = 3600;

/**
 * Energy that a pump draws for a pressure: volume times pressure (1 kPa on 1 m3 is 1 kJ), over the efficiency of 0.6 of pump and motor together, in kWh. 0 for a pressure below nought.
 *
 * Source: work of a pump; the efficiency is common practice.
 *
 * @example pressureEnergyKwh({ volumeM3: 216, pressureKpa: 10 }) // => 1
 */
export function pressureEnergyKwh({ volumeM3, pressureKpa }: { readonly volumeM3: number; readonly pressureKpa: number }): number {
  return (volumeM3 * Math.max(0, pressureKpa)) / KJ_PER_KWH / PUMP_EFFICIENCY;
}
