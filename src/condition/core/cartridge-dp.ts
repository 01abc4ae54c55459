import { temperatureCorrection } from './temperature-correction.js';

/** How the pressure drop of a cartridge housing follows flow and temperature. */
export interface CartridgeBasis {
  readonly referenceFlowM3h: number;
  readonly referenceC: number;
  /** 1 is laminar flow through the element; 1.1 was seen for elements, up to 2 for an empty housing */
  readonly flowExponent: number;
  /** Pressure drop of housing and fittings in kPa/(m3/h)2; 0 where unknown */
  readonly housingKpaPerFlowSquared: number;
  /** Below this share of the reference flow the offset of the transmitter weighs more than the dirt */
  readonly leastFlowShare: number;
}

/** Common practice: 20 °C, laminar, not below half of the reference flow. */
export const CARTRIDGE_DEFAULTS = { referenceC: 20, flowExponent: 1, housingKpaPerFlowSquared: 0, leastFlowShare: 0.5 } as const;

export type CartridgeDp = { readonly kind: 'pressure-drop'; readonly dpKpa: number } | { readonly kind: 'low-flow'; readonly leastM3h: number };

/**
 * Pressure drop of a cartridge housing at reference flow and temperature, in kPa: what the dirt alone does to it, so that a low flow or warm water does not
 * pass for a clean cartridge.
 *
 * (drop - k Q2) * (Qref/Q)^m * viscosity at the reference / viscosity at the water's temperature + k Qref2, with k of the housing and m the flow exponent.
 *
 * Source: laminar flow through the element, turbulent flow through the housing (common practice); viscosity by IAPWS SR6-08.
 *
 * @example cartridgeDpAtReference({ dpKpa: 40, flowM3h: 10, temperatureC: 20 }, { referenceFlowM3h: 20, referenceC: 20, flowExponent: 1, housingKpaPerFlowSquared: 0, leastFlowShare: 0.5 }) // => { "kind": "pressure-drop", "dpKpa": 80 }
 */
export function cartridgeDpAtReference(measured: { dpKpa: number; flowM3h: number; temperatureC: number }, basis: CartridgeBasis): CartridgeDp {
  const { dpKpa, flowM3h, temperatureC } = measured;
  const leastM3h = basis.leastFlowShare * basis.referenceFlowM3h;
  if (!(flowM3h > 0) || flowM3h < leastM3h) return { kind: 'low-flow', leastM3h };
  const elementKpa = dpKpa - basis.housingKpaPerFlowSquared * flowM3h ** 2;
  const atReference = (elementKpa * (basis.referenceFlowM3h / flowM3h) ** basis.flowExponent) / temperatureCorrection(temperatureC, basis.referenceC);
  return { kind: 'pressure-drop', dpKpa: atReference + basis.housingKpaPerFlowSquared * basis.referenceFlowM3h ** 2 };
}
