import { useSyncExternalStore } from 'react';
import { UNITS, type UnitCode } from '../shared/units.js';

/** What each person chooses for themselves, on this device; the first is the one to start with. */
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

const STORED_AT = 'units';
const DEFAULT: UnitChoice = { pressure: 'bar', flow: 'm3/h', temperature: 'Cel', permeability: 'L/m2/h/bar' };
const listeners = new Set<() => void>();
let choice = read();

function read(): UnitChoice {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(STORED_AT) ?? '{}');
    const known = Object.entries(UNIT_OPTIONS).flatMap(([dimension, options]) => {
      const code = (stored as Record<string, unknown>)[dimension];
      return options.some((option) => option === code) ? [[dimension, code]] : [];
    });
    return { ...DEFAULT, ...Object.fromEntries(known) };
  } catch {
    return DEFAULT; // storage may be switched off
  }
}

export function chooseUnit(dimension: ChosenDimension, code: UnitCode): void {
  choice = { ...choice, [dimension]: code };
  try {
    localStorage.setItem(STORED_AT, JSON.stringify(choice));
  } catch {
    // then the choice lasts as long as the page
  }
  for (const tell of listeners) tell();
}

function subscribe(tell: () => void): () => void {
  listeners.add(tell);
  return () => listeners.delete(tell);
}

export const useUnits = (): UnitChoice => useSyncExternalStore(subscribe, () => choice);

export const unitLabel = (code: UnitCode): string => UNITS[code].label;
export const unitDigits = (code: UnitCode): number => DIGITS[code] ?? 0;
