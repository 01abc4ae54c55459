import type { SensorFault, SkidPlan } from '../plan.js';
import { isWithin } from './duty.js';
import type { Period } from './period.js';

/** What the transmitters of a skid show at one moment. Pressures in kPa, gauge. */
export interface Shown {
  readonly flowM3h: number | null;
  readonly feedKpa: number | null;
  readonly filtrateKpa: number | null;
  readonly concentrateKpa: number | null;
  readonly tmpKpa: number | null;
  readonly temperatureC: number | null;
  readonly cartridgeDpKpa: number | null;
  readonly feedTurbidityNtu: number | null;
}

export interface TrueState {
  readonly flowM3h: number;
  readonly tmpKpa: number;
  readonly temperatureC: number;
  readonly turbidityNtu: number;
  readonly cartridgeKpa: number | null;
}

const KPA_PER_METRE = 9.789;
/** Head that the filtrate is lifted by, at the datum */
const FILTRATE_HEAD_KPA = 42;
const CONCENTRATE_DROP_KPA = 18;

/** Readings of sound transmitters. Each hangs at its own height, and so shows more or less than the pressure at the datum. */
export function shownOf(plan: SkidPlan, state: TrueState): Shown {
  const { flowScheme, feedHeightM, filtrateHeightM, concentrateHeightM } = plan;
  const { flowM3h, tmpKpa } = state;
  if (plan.tmpFrom === 'measured') return showing(state, null, null, null, tmpKpa);
  // Submerged fibres hang in an open tank: the head of its water drives, and the filtrate pump draws.
  if (flowScheme === 'submerged') return showing(state, null, at(KPA_PER_METRE * feedHeightM - tmpKpa, filtrateHeightM), null, null);
  const share = flowM3h / plan.ratedFlowM3h;
  const filtrateKpa = FILTRATE_HEAD_KPA + 6 * share ** 2;
  const drop = flowScheme === 'cross-flow' ? CONCENTRATE_DROP_KPA * share ** 1.5 : 0;
  const concentrateKpa = flowScheme === 'cross-flow' ? at(filtrateKpa + tmpKpa - drop / 2, concentrateHeightM) : null;
  return showing(state, at(filtrateKpa + tmpKpa + drop / 2, feedHeightM), at(filtrateKpa, filtrateHeightM), concentrateKpa, null);
}

const at = (datumKpa: number, heightM: number): number => datumKpa - KPA_PER_METRE * heightM;

function showing(state: TrueState, feedKpa: number | null, filtrateKpa: number | null, concentrateKpa: number | null, tmpKpa: number | null): Shown {
  const { flowM3h, temperatureC, cartridgeKpa, turbidityNtu } = state;
  return { flowM3h, feedKpa, filtrateKpa, concentrateKpa, tmpKpa, temperatureC, cartridgeDpKpa: cartridgeKpa, feedTurbidityNtu: turbidityNtu };
}

/** The readings as faulty transmitters show them. A stuck one goes on showing what it showed when it stuck; `memory` keeps that from call to call. */
export function withFaults(shown: Shown, faults: readonly SensorFault[], ms: number, period: Period, memory: Map<SensorFault, number | null>): Shown {
  let faulty = shown;
  for (const fault of faults) {
    if (!isWithin(ms, fault, period)) continue;
    const { reading, kind, by = 0 } = fault;
    const sound = shown[reading];
    if (kind === 'stuck' && !memory.has(fault)) memory.set(fault, sound);
    const shows = kind === 'missing' || sound === null ? null : kind === 'offset' ? sound + by : (memory.get(fault) ?? null);
    faulty = { ...faulty, [reading]: shows };
  }
  return faulty;
}
