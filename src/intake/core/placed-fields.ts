import type { FileKind, ProfileColumn } from './log-profile.js';
import type { PlacedField } from './read-fields.js';
import { TABLE_FIELDS } from './table-fields.js';

/** Fields with their place in this file; those that the file does not have are left out. */
export function placedFields(kind: Exclude<FileKind, 'samples'>, columns: readonly ProfileColumn[], places: readonly number[]): PlacedField[] {
  return columns.flatMap(({ column, as, unit }, index) => {
    const field = TABLE_FIELDS[kind].find(({ name }) => name === as);
    const place = places[index] ?? -1;
    return field === undefined || place < 0 ? [] : [{ field, place, unit, column }];
  });
}
