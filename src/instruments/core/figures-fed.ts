import type { SignalCode } from '../../shared/signals.js';

/** Figures of a day of condition. */
export const FIGURES = ['permeability', 'transmembrane pressure', 'flux', 'filtrate', 'cartridge pressure drop', 'temperature', 'feed turbidity'] as const;
export type Figure = (typeof FIGURES)[number];

/** How a skid gets its transmembrane pressure; `null` as the skid has it by default: from the pressures, dead-end. */
export interface PressureBasis {
  readonly scheme: 'dead-end' | 'cross-flow' | 'submerged' | null;
  readonly tmpFrom: 'pressures' | 'measured' | null;
}

const TMP: readonly Figure[] = ['transmembrane pressure', 'permeability'];
const CARTRIDGE: readonly Figure[] = ['cartridge pressure drop'];

const FEEDS: Partial<Record<SignalCode, readonly Figure[]>> = {
  cartridge_dp: CARTRIDGE,
  cartridge_inlet_pressure: CARTRIDGE,
  cartridge_outlet_pressure: CARTRIDGE,
  filtrate_flow: ['flux', 'filtrate', 'permeability', 'cartridge pressure drop'],
  filtrate_total: ['filtrate'],
  temperature: ['temperature', 'permeability', 'cartridge pressure drop'],
  feed_turbidity: ['feed turbidity'],
};

/**
 * Which figures of condition rest on a signal: an instrument that measured it wrongly makes these doubtful. A signal that no figure uses feeds none; what a transmembrane
 * pressure is made of depends on the skid.
 *
 * Source: the equations of condition: transmembrane pressure by the flow scheme, permeability by flow, pressure and temperature.
 *
 * @example figuresFed('feed_pressure', { scheme: 'dead-end', tmpFrom: 'pressures' }) // => ["transmembrane pressure", "permeability"]
 * @example figuresFed('feed_pressure', { scheme: 'dead-end', tmpFrom: 'measured' }) // => []
 */
export function figuresFed(signal: SignalCode, { scheme, tmpFrom }: PressureBasis): readonly Figure[] {
  const measured = tmpFrom === 'measured';
  if (signal === 'tmp') return measured ? TMP : [];
  if (signal === 'feed_pressure' || signal === 'filtrate_pressure') return measured ? [] : TMP;
  if (signal === 'concentrate_pressure') return !measured && scheme === 'cross-flow' ? TMP : [];
  return FEEDS[signal] ?? [];
}
