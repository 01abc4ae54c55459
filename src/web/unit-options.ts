import { type Dimension, UNITS, type UnitCode } from '../shared/units.js';

const ALL = Object.keys(UNITS) as UnitCode[];

/** Every unit in which a quantity of the dimension can be written. */
export const unitsOf = (dimension: Dimension): UnitCode[] => ALL.filter((code) => UNITS[code].dimension === dimension);

/** Units that have a name to show. */
export const NAMED_UNITS = ALL.filter((code) => UNITS[code].label !== '');
