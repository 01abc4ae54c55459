import type { CycleFact } from '../../intake/core/cycle-fact.js';
import { type TmpBasis, transmembraneKpa } from '../../intake/core/tmp.js';
import { QUALITY } from '../../shared/quality.js';
import { CARTRIDGE_DEFAULTS, type CartridgeBasis, cartridgeDpAtReference } from './cartridge-dp.js';
import type { Gates } from './gates.js';
import type { LeftOutReason } from './left-out.js';
import { fluxLmh, permeabilityLmhBar, resistancePerM } from './permeability.js';

/** What of a skid turns its readings into condition, as it was on the day of the cycle. */
export interface SkidBasis extends TmpBasis {
  /** Active area, without isolated modules */
  readonly areaM2: number;
  readonly referenceC: number;
  /** `null`: the gates on flow are not applied */
  readonly ratedFlowM3h: number | null;
  readonly cartridgeReferenceFlowM3h: number | null;
}

interface LeftOut {
  readonly kind: 'left-out';
  readonly reason: LeftOutReason;
}

export interface AssessedMembrane {
  readonly kind: 'assessed';
  readonly fluxLmh: number;
  readonly tmpKpa: number;
  /** At the reference temperature of the basis */
  readonly permeabilityLmhBar: number;
  /** Just after the clean that came before; `null` where the source does not say that pressure */
  readonly permeabilityStartLmhBar: number | null;
  readonly resistancePerM: number;
  readonly temperatureC: number;
}

interface AssessedCartridge {
  readonly kind: 'assessed';
  /** At the reference flow and 20 degC */
  readonly cartridgeDpRefKpa: number;
}

export interface CycleAssessment {
  readonly membrane: AssessedMembrane | LeftOut;
  readonly cartridge: AssessedCartridge | LeftOut;
}

/**
 * What one cycle says about the membrane and about the pre-filter cartridge. The two are judged apart, so that a cycle without a transmembrane pressure may
 * still say how far the cartridge is. The first gate that a cycle fails is its reason. Without a temperature nothing is normalised: 20 °C is never assumed.
 *
 * The flow of the cartridge is taken to be the filtrate flow, which holds for dead-end filtration and is low by the bleed in cross-flow.
 *
 * Source: gates by common practice, see `DEFAULT_GATES`; equations in the files that this one calls.
 */
export function assessCycle(cycle: CycleFact, basis: SkidBasis, gates: Gates): CycleAssessment {
  return { membrane: assessMembrane(cycle, basis, gates), cartridge: assessCartridge(cycle, basis, gates) };
}

function assessMembrane(cycle: CycleFact, basis: SkidBasis, gates: Gates): AssessedMembrane | LeftOut {
  const { flowM3h, temperatureC } = cycle;
  if (isDoubtful(cycle)) return leftOut('flagged doubtful');
  if (!cycle.byHand && cycle.filtrationMinutes < gates.leastMinutes) return leftOut('too short');
  if (flowM3h === null) return leftOut('no flow');
  if (!(flowM3h > 0)) return leftOut('low flow');
  if (basis.ratedFlowM3h !== null) {
    const share = flowM3h / basis.ratedFlowM3h;
    if (share < gates.leastFlowShare) return leftOut('low flow');
    if (gates.fluxBandShare !== null && Math.abs(share - 1) > gates.fluxBandShare) return leftOut('flux off set point');
  }
  if (!(basis.areaM2 > 0)) return leftOut('no membrane area');
  const transmembrane = transmembraneKpa(cycle, basis);
  if (transmembrane.kind === 'missing') return leftOut('no pressure');
  const { tmpKpa } = transmembrane;
  if (!isWithin(tmpKpa, gates.tmpKpa)) return leftOut('tmp out of range');
  if (temperatureC === null) return leftOut('no temperature');
  if (!isWithin(temperatureC, gates.temperatureC)) return leftOut('temperature out of range');

  const flux = fluxLmh(flowM3h, basis.areaM2);
  const permeability = permeabilityLmhBar(flux, tmpKpa, temperatureC, basis.referenceC);
  if (!isWithin(permeability, gates.permeabilityLmhBar)) return leftOut('permeability not plausible');
  const saysStart = cycle.tmpStartKpa !== null && isWithin(cycle.tmpStartKpa, gates.tmpKpa);
  return {
    kind: 'assessed',
    fluxLmh: flux,
    tmpKpa,
    permeabilityLmhBar: permeability,
    permeabilityStartLmhBar: saysStart ? permeabilityLmhBar(flux, cycle.tmpStartKpa, temperatureC, basis.referenceC) : null,
    resistancePerM: resistancePerM(flux, tmpKpa, temperatureC),
    temperatureC,
  };
}

function assessCartridge(cycle: CycleFact, basis: SkidBasis, gates: Gates): AssessedCartridge | LeftOut {
  if (cycle.cartridgeDpKpa === null) return leftOut('no pressure drop');
  if (isDoubtful(cycle)) return leftOut('flagged doubtful');
  if (cycle.cartridgeDpKpa < 0) return leftOut('pressure drop below zero');
  if (basis.cartridgeReferenceFlowM3h === null) return leftOut('no reference flow');
  if (cycle.flowM3h === null) return leftOut('no flow');
  if (cycle.temperatureC === null) return leftOut('no temperature');
  if (!isWithin(cycle.temperatureC, gates.temperatureC)) return leftOut('temperature out of range');
  const { cartridgeDpKpa: dpKpa, flowM3h, temperatureC } = cycle;
  const result = cartridgeDpAtReference({ dpKpa, flowM3h, temperatureC }, housingOf(basis.cartridgeReferenceFlowM3h));
  return result.kind === 'low-flow' ? leftOut('low flow') : { kind: 'assessed', cartridgeDpRefKpa: result.dpKpa };
}

/** Named one by one: a spread for each cycle of a long record takes longer than the equation. */
function housingOf(referenceFlowM3h: number): CartridgeBasis {
  const { referenceC, flowExponent, housingKpaPerFlowSquared, leastFlowShare } = CARTRIDGE_DEFAULTS;
  return { referenceFlowM3h, referenceC, flowExponent, housingKpaPerFlowSquared, leastFlowShare };
}

/** A cycle that replaced an earlier report of itself is the better one of the two, so that bit alone casts no doubt. */
function isDoubtful(cycle: CycleFact): boolean {
  return (cycle.quality & ~QUALITY.replaced) !== 0;
}

function leftOut(reason: LeftOutReason): LeftOut {
  return { kind: 'left-out', reason };
}

function isWithin(value: number, range: readonly [low: number, high: number]): boolean {
  return value >= range[0] && value <= range[1];
}
