import { viscosityMpaS } from '../viscosity.js';

const LMH_BAR_TO_SI = 1 / (3.6e6 * 1e5);

/**
 * Hydraulic resistance of a membrane, 1/m, from its permeability at a reference temperature: R = 1 / (viscosity x permeability). Resistances in series add,
 * permeabilities do not: whoever splits a loss of permeability into causes works on resistances.
 *
 * Source: Darcy's law; viscosity by IAPWS SR6-08.
 *
 * @example resistanceOf(200, 20) // => 1797183338168.984
 */
export function resistanceOf(permeabilityLmhBar: number, referenceC: number): number {
  return 1 / ((viscosityMpaS(referenceC) / 1000) * permeabilityLmhBar * LMH_BAR_TO_SI);
}
