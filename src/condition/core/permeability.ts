import { temperatureCorrection } from './temperature-correction.js';
import { viscosityMpaS } from './viscosity.js';

const KPA_PER_BAR = 100;
/** Turns L/(m2 h) into m/s */
const METRES_PER_SECOND_PER_LMH = 1 / 3.6e6;

/**
 * Flux: filtrate flow over the active membrane area, in L/(m2 h). The area is the one of that day, without isolated modules; it must be above 0.
 *
 * @example fluxLmh(36, 600) // => 60
 */
export function fluxLmh(flowM3h: number, areaM2: number): number {
  return (flowM3h * 1000) / areaM2;
}

/**
 * Permeability at the reference temperature, in L/(m2 h bar): how much filtrate a membrane gives for its pressure. It falls as the membrane fouls.
 *
 * Flux over transmembrane pressure, times viscosity at the water's temperature over viscosity at the reference. The pressure must be above 0.
 *
 * Source: Darcy's law; reference of 20 °C is common practice in ultrafiltration (25 °C belongs to reverse osmosis).
 *
 * @example permeabilityLmhBar(60, 50, 20, 20) // => 120
 */
export function permeabilityLmhBar(fluxLmh: number, tmpKpa: number, temperatureC: number, referenceC: number): number {
  return (fluxLmh / (tmpKpa / KPA_PER_BAR)) * temperatureCorrection(temperatureC, referenceC);
}

/**
 * Total resistance of membrane and fouling, in 1/m: transmembrane pressure over viscosity times flux. Resistances add where permeabilities do not.
 * The flux must be above 0.
 *
 * Source: Darcy's law, resistance-in-series form.
 *
 * @example resistancePerM(60, 42, 12) // => 2042080735477.2139
 */
export function resistancePerM(fluxLmh: number, tmpKpa: number, temperatureC: number): number {
  return (tmpKpa * 1000) / ((viscosityMpaS(temperatureC) / 1000) * fluxLmh * METRES_PER_SECOND_PER_LMH);
}
