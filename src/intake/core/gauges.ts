import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import type { UnitCode } from '../../shared/units.js';
import type { SkidMachines } from './skid-machines.js';
import type { TmpBasis } from './tmp.js';

/** A gauge that a person reads: what it shows, in which unit, and how fine. */
export interface Gauge {
  readonly signal: SignalCode;
  readonly unit: UnitCode;
  /** In `unit`; null: not known */
  readonly smallestDivision: number | null;
}

/**
 * The gauges that a skid is expected to have where nobody has listed them: the pressures that its flow scheme needs, flow or totaliser, temperature, the
 * pressures around its cartridges, and the backwash counter. Pressures in bar, as most gauges show them. Common practice.
 */
export function expectedGauges({ scheme, tmpFrom }: TmpBasis, machines: SkidMachines): Gauge[] {
  const pressures: SignalCode[] = tmpFrom === 'measured' ? ['tmp'] : scheme === 'submerged' ? ['filtrate_pressure'] : ['feed_pressure', 'filtrate_pressure'];
  if (tmpFrom === 'pressures' && scheme === 'cross-flow') pressures.push('concentrate_pressure');
  if (machines.positions.some(({ kind, ended }) => kind === 'pre-filter' && !ended)) pressures.push('cartridge_inlet_pressure', 'cartridge_outlet_pressure');
  const others: SignalCode[] = ['filtrate_flow', 'filtrate_total', 'temperature', 'backwash_count'];
  return [...pressures, ...others].map((signal) => {
    const { dimension, unit } = SIGNALS[signal];
    return { signal, unit: dimension === 'pressure' ? 'bar' : unit, smallestDivision: null };
  });
}
