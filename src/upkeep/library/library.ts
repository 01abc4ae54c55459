import { AIR_RULES, AIR_SHEETS } from './air.js';
import { LAY_UP_RULES, LAY_UP_SHEETS } from './lay-up.js';
import type { LibraryRule, LibrarySheet } from './library-terms.js';
import { MEMBRANE_RULES, MEMBRANE_SHEETS } from './membranes.js';
import { PUMP_RULES, PUMP_SHEETS } from './pumps.js';
import { VALVE_AND_INSTRUMENT_RULES, VALVE_AND_INSTRUMENT_SHEETS } from './valves-and-instruments.js';

export type { LibraryRule, LibrarySheet };

/** How the set is called; by its name it is known again. */
export const LIBRARY_NAME = 'UF skid, common practice';
export const LIBRARY_NOTE =
  'A start for an ultrafiltration skid: intervals from trade texts and common practice, each with where it comes from. The maker’s manual wins. Change what does not fit in a draft.';

export const LIBRARY_SHEETS: readonly LibrarySheet[] = [...PUMP_SHEETS, ...AIR_SHEETS, ...VALVE_AND_INSTRUMENT_SHEETS, ...MEMBRANE_SHEETS, ...LAY_UP_SHEETS];
export const LIBRARY_RULES: readonly LibraryRule[] = [...PUMP_RULES, ...AIR_RULES, ...VALVE_AND_INSTRUMENT_RULES, ...MEMBRANE_RULES, ...LAY_UP_RULES];
