import { viscosityMpaS } from './viscosity.js';

/**
 * Temperature correction factor: viscosity at the water's temperature over viscosity at the reference temperature. Above 1 when the water is colder than
 * the reference. A permeability or flux is multiplied by it, a pressure divided, so that cold water raises a normalised permeability.
 *
 * Corrects for the viscosity of pure water only: swelling of pores and the biology of the feed also follow the seasons and stay in the value.
 *
 * Source: flux is inversely proportional to viscosity (Darcy's law); viscosity by IAPWS SR6-08.
 *
 * @example temperatureCorrection(25, 25) // => 1
 * @example temperatureCorrection(10, 20) // => 1.3038582369
 */
export function temperatureCorrection(temperatureC: number, referenceC: number): number {
  return viscosityMpaS(temperatureC) / viscosityMpaS(referenceC);
}
