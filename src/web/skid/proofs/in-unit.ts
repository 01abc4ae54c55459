import { fromStored, type UnitCode } from '../../../shared/units.js';
import { written } from '../../format.js';
import { unitLabel } from '../../units-choice.js';

/** A stored value with its unit, in the one that the reader chose. */
export const inUnit = (stored: number, unit: UnitCode): string => `${written(Number(fromStored(stored, unit).toPrecision(4)))} ${unitLabel(unit)}`;
