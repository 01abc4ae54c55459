import { useSyncExternalStore } from 'react';
import { type ChosenDimension, DEFAULT_UNITS, UNIT_OPTIONS, type UnitChoice } from '../shared/unit-choice.js';
import type { UnitCode } from '../shared/units.js';

export { type ChosenDimension, UNIT_OPTIONS, type UnitChoice, unitDigits, unitLabel } from '../shared/unit-choice.js';

const STORED_AT = 'units';
const listeners = new Set<() => void>();
let choice = read();

function read(): UnitChoice {
  try {
    const stored: unknown = JSON.parse(localStorage.getItem(STORED_AT) ?? '{}');
    const known = Object.entries(UNIT_OPTIONS).flatMap(([dimension, options]) => {
      const code = (stored as Record<string, unknown>)[dimension];
      return options.some((option) => option === code) ? [[dimension, code]] : [];
    });
    return { ...DEFAULT_UNITS, ...Object.fromEntries(known) };
  } catch {
    return DEFAULT_UNITS; // storage may be switched off
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
