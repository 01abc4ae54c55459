/**
 * Units that log files and people use, by UCUM code, and their conversion to the stored unit of their dimension.
 * Exact definitions: inch 0.0254 m, pound-force per square inch 6.894757293168361 kPa, US gallon 3.785411784 L, foot 0.3048 m
 * (so square foot 0.09290304 m²).
 * Source: NIST Special Publication 811 (2008), appendix B (from memory; the factors follow from the definitions above).
 */
export type Dimension =
  | 'pressure'
  | 'flow'
  | 'permeability'
  | 'volume'
  | 'temperature'
  | 'duration'
  | 'length'
  | 'concentration'
  | 'turbidity'
  | 'conductivity'
  | 'count'
  | 'state';

interface Unit {
  readonly dimension: Dimension;
  /** What people read: `m³/h` */
  readonly label: string;
  /** Stored value = entered value * factor + offset */
  readonly factor: number;
  readonly offset: number;
}

const unit = (dimension: Dimension, label: string, factor = 1, offset = 0): Unit => ({ dimension, label, factor, offset });

const KPA_PER_PSI = 6.894757293168361;
const LITRES_PER_US_GALLON = 3.785411784;
const M2_PER_SQUARE_FOOT = 0.09290304;

export const UNITS = {
  kPa: unit('pressure', 'kPa'),
  bar: unit('pressure', 'bar', 100),
  mbar: unit('pressure', 'mbar', 0.1),
  MPa: unit('pressure', 'MPa', 1000),
  '[psi]': unit('pressure', 'psi', KPA_PER_PSI),
  'm[H2O]': unit('pressure', 'm water', 9.80665),
  'm3/h': unit('flow', 'm³/h'),
  'L/h': unit('flow', 'L/h', 0.001),
  'L/min': unit('flow', 'L/min', 0.06),
  'L/s': unit('flow', 'L/s', 3.6),
  '[gal_us]/min': unit('flow', 'US gpm', (LITRES_PER_US_GALLON * 60) / 1000),
  'L/m2/h/bar': unit('permeability', 'L/m²·h·bar'),
  '[gal_us]/[sft_i]/d/[psi]': unit('permeability', 'gfd/psi', (LITRES_PER_US_GALLON / M2_PER_SQUARE_FOOT / 24 / KPA_PER_PSI) * 100),
  m3: unit('volume', 'm³'),
  L: unit('volume', 'L', 0.001),
  '[gal_us]': unit('volume', 'US gal', LITRES_PER_US_GALLON / 1000),
  Cel: unit('temperature', '°C'),
  '[degF]': unit('temperature', '°F', 5 / 9, -160 / 9),
  K: unit('temperature', 'K', 1, -273.15),
  h: unit('duration', 'h'),
  min: unit('duration', 'min', 1 / 60),
  s: unit('duration', 's', 1 / 3600),
  m: unit('length', 'm'),
  cm: unit('length', 'cm', 0.01),
  mm: unit('length', 'mm', 0.001),
  '[ft_i]': unit('length', 'ft', 0.3048),
  '[in_i]': unit('length', 'in', 0.0254),
  'mg/L': unit('concentration', 'mg/L'),
  'g/L': unit('concentration', 'g/L', 1000),
  '[NTU]': unit('turbidity', 'NTU'),
  '[FNU]': unit('turbidity', 'FNU'),
  'uS/cm': unit('conductivity', 'µS/cm'),
  '1': unit('count', ''),
  state: unit('state', ''),
} as const satisfies Record<string, Unit>;

export type UnitCode = keyof typeof UNITS;

/** Whether the text is the code of a unit known here. */
export function isUnitCode(code: string): code is UnitCode {
  return Object.hasOwn(UNITS, code);
}

/**
 * A value in the stored unit of its dimension (kPa, m3/h, L/m2 h bar, m3, Cel, h, m, mg/L).
 *
 * @example toStored(1, 'bar') // => 100
 * @example toStored(212, '[degF]') // => 100
 */
export function toStored(value: number, code: UnitCode): number {
  const { factor, offset } = UNITS[code];
  return value * factor + offset;
}

/**
 * A stored value in a unit that a person chose.
 *
 * @example fromStored(100, 'bar') // => 1
 * @example fromStored(24.623681202495067, '[gal_us]/[sft_i]/d/[psi]') // => 1
 */
export function fromStored(value: number, code: UnitCode): number {
  const { factor, offset } = UNITS[code];
  return (value - offset) / factor;
}
