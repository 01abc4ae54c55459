import type { Dimension, UnitCode } from './units.js';

/** What a signal of a skid means. Values are stored in `unit`; outside `plausible` a value is refused as not possible for this signal. */
interface SignalKind {
  readonly label: string;
  readonly dimension: Dimension;
  readonly unit: UnitCode;
  readonly plausible: readonly [number, number];
  /** Belongs to one machine (position) and not to the skid as a whole */
  readonly ofPosition?: true;
}

const kind = (label: string, dimension: Dimension, unit: UnitCode, low: number, high: number): SignalKind => ({
  label,
  dimension,
  unit,
  plausible: [low, high],
});

/**
 * Every signal that intake knows. Pressures are gauge. Plausible ranges: common practice; they catch wrong units and broken wires, not faults.
 */
export const SIGNALS = {
  feed_pressure: kind('Feed pressure', 'pressure', 'kPa', -100, 1600),
  filtrate_pressure: kind('Filtrate pressure', 'pressure', 'kPa', -100, 1600),
  concentrate_pressure: kind('Concentrate pressure', 'pressure', 'kPa', -100, 1600),
  tmp: kind('Transmembrane pressure', 'pressure', 'kPa', -100, 1000),
  cartridge_dp: kind('Cartridge pressure drop', 'pressure', 'kPa', -50, 1000),
  cartridge_inlet_pressure: kind('Pressure before the cartridges', 'pressure', 'kPa', -100, 1600),
  cartridge_outlet_pressure: kind('Pressure after the cartridges', 'pressure', 'kPa', -100, 1600),
  filtrate_flow: kind('Filtrate flow', 'flow', 'm3/h', -50, 5000),
  feed_flow: kind('Feed flow', 'flow', 'm3/h', -50, 5000),
  filtrate_total: kind('Filtrate totaliser', 'volume', 'm3', 0, 1e9),
  temperature: kind('Water temperature', 'temperature', 'Cel', -5, 60),
  feed_turbidity: kind('Feed turbidity', 'turbidity', '[NTU]', 0, 4000),
  filtrate_turbidity: kind('Filtrate turbidity', 'turbidity', '[NTU]', 0, 1000),
  feed_conductivity: kind('Feed conductivity', 'conductivity', 'uS/cm', 0, 200_000),
  tank_level: kind('Product tank level', 'length', 'm', 0, 30),
  chlorine: kind('Free chlorine', 'concentration', 'mg/L', 0, 10_000),
  mode: kind('Operating mode', 'state', 'state', 0, 1000),
  running: { ...kind('Running', 'state', 'state', 0, 1000), ofPosition: true },
  run_hours: { ...kind('Hour meter', 'duration', 'h', 0, 1e7), ofPosition: true },
  starts: { ...kind('Start counter', 'count', '1', 0, 1e9), ofPosition: true },
  motor_current: { ...kind('Motor current', 'count', '1', 0, 10_000), ofPosition: true },
  backwash_count: kind('Backwash counter', 'count', '1', 0, 1e9),
} as const satisfies Record<string, SignalKind>;

export type SignalCode = keyof typeof SIGNALS;

/** Whether the text is the code of a signal known here. */
export function isSignalCode(code: string): code is SignalCode {
  return Object.hasOwn(SIGNALS, code);
}
