import { toStored, UNITS, type UnitCode } from '../../shared/units.js';
import type { FieldFault } from './event.js';
import type { DecimalMark } from './read-number.js';
import { readNumber } from './read-number.js';
import type { TableField } from './table-fields.js';

/** A field with the column of this file that holds it. */
export interface PlacedField {
  readonly field: TableField;
  /** From 0 */
  readonly place: number;
  /** In which the column is written */
  readonly unit: UnitCode | null;
  readonly column: string;
}

export interface CellSettings {
  readonly decimal: DecimalMark;
  readonly missingValues: readonly string[];
  readonly words: Readonly<Record<string, string>>;
}

export interface FieldsRead {
  /** Text or number by the name of the field; a field that is empty or has no column is not there */
  readonly values: Readonly<Record<string, string | number>>;
  readonly faults: readonly FieldFault[];
}

/** The cells of one row as fields in the units that their names say. */
export function readFields(cells: readonly string[], placed: readonly PlacedField[], { decimal, missingValues, words }: CellSettings): FieldsRead {
  const values: Record<string, string | number> = {};
  const faults: FieldFault[] = [];
  for (const { field, place, unit, column } of placed) {
    const written = (cells[place] ?? '').trim();
    const cell = wordOf(written, words);
    if (cell === '' || missingValues.includes(cell)) continue;
    if (field.dimension === null) {
      if (cell.includes('\0')) faults.push({ column, value: cell, message: 'holds a character that cannot be stored (U+0000)' });
      values[field.name] = cell;
      continue;
    }
    const number = readNumber(cell, decimal, missingValues);
    if (number.kind === 'not-a-number') faults.push({ column, value: cell, message: number.reason });
    if (number.kind !== 'number') continue;
    values[field.name] = unit === null || unit === field.unit ? number.value : inFieldUnit(number.value, unit, field);
  }
  return { values, faults };
}

/** What a word of the export stands for; other text stands for itself. */
export function wordOf(cell: string, words: CellSettings['words']): string {
  return Object.hasOwn(words, cell) ? (words[cell] ?? cell) : cell;
}

/** Minutes are kept as minutes, and not as hours and back. */
function inFieldUnit(value: number, unit: UnitCode, { unit: own, perStored }: TableField): number {
  const same = own !== null && UNITS[unit].factor === UNITS[own].factor && UNITS[unit].offset === UNITS[own].offset;
  return same ? value : toStored(value, unit) * perStored;
}
