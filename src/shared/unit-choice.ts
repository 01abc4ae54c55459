import { UNITS, type UnitCode } from './units.js';

/** What each person chooses for themselves; the first is the one to start with. */
export const UNIT_OPTIONS = {
  pressure: ['bar', 'kPa', '[psi]'],
  flow: ['m3/h', 'L/min', '[gal_us]/min'],
  temperature: ['Cel', '[degF]'],
  permeability: ['L/m2/h/bar', '[gal_us]/[sft_i]/d/[psi]'],
} as const satisfies Record<string, readonly UnitCode[]>;

export type ChosenDimension = keyof typeof UNIT_OPTIONS;
export type UnitChoice = Readonly<Record<ChosenDimension, UnitCode>>;

/** Decimals that a gauge of the unit can tell apart. */
const DIGITS: Partial<Record<UnitCode, number>> = { bar: 2, '[psi]': 1, 'm3/h': 1, Cel: 1, '[gal_us]/[sft_i]/d/[psi]': 2 };

export const DEFAULT_UNITS: UnitChoice = { pressure: 'bar', flow: 'm3/h', temperature: 'Cel', permeability: 'L/m2/h/bar' };

export const unitLabel = (code: UnitCode): string => UNITS[code].label;
export const unitDigits = (code: UnitCode): number => DIGITS[code] ?? 0;
