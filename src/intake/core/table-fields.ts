import type { Dimension, UnitCode } from '../../shared/units.js';
import type { FileKind, LogProfileDefinition, ProfileColumn } from './log-profile.js';

/** A field of a cycle or event as a column of a file: its documented name, and for a quantity the unit that the name says. */
export interface TableField {
  readonly name: string;
  readonly unit: UnitCode | null;
  readonly dimension: Dimension | null;
  /** Units of the field for one stored unit of its dimension: litres for one cubic metre */
  readonly perStored: number;
}

const quantity = (name: string, dimension: Dimension, unit: UnitCode, perStored = 1): TableField => ({ name, dimension, unit, perStored });
const text = (name: string): TableField => ({ name, dimension: null, unit: null, perStored: 1 });

/** The time of a row stands in the time column of the profile: `started_at` of a cycle, `at` of an event. */
export const TABLE_FIELDS: Readonly<Record<Exclude<FileKind, 'samples'>, readonly TableField[]>> = {
  cycles: [
    text('ended_at'),
    quantity('filtration_minutes', 'duration', 'min', 60),
    quantity('filtrate_m3', 'volume', 'm3'),
    quantity('flow_m3h', 'flow', 'm3/h'),
    quantity('feed_kpa', 'pressure', 'kPa'),
    quantity('filtrate_kpa', 'pressure', 'kPa'),
    quantity('concentrate_kpa', 'pressure', 'kPa'),
    quantity('tmp_kpa', 'pressure', 'kPa'),
    quantity('tmp_start_kpa', 'pressure', 'kPa'),
    quantity('tmp_end_kpa', 'pressure', 'kPa'),
    quantity('temperature_c', 'temperature', 'Cel'),
    quantity('cartridge_dp_kpa', 'pressure', 'kPa'),
    quantity('feed_turbidity_ntu', 'turbidity', '[NTU]'),
  ],
  events: [
    ...['event', 'position', 'meter', 'tank', 'chemical', 'item', 'serial_number', 'lot', 'reason', 'task', 'by', 'note'].map(text),
    quantity('value', 'count', '1'),
    quantity('old_final', 'count', '1'),
    quantity('set_count', 'count', '1'),
    quantity('level_m', 'length', 'm'),
    quantity('volume_l', 'volume', 'L', 1000),
    quantity('strength_g_l', 'concentration', 'g/L', 0.001),
    quantity('strength_mg_l', 'concentration', 'mg/L'),
    quantity('contact_minutes', 'duration', 'min', 60),
    quantity('minutes', 'duration', 'min', 60),
  ],
};

/** The columns by which a file is read: those of the profile, or all documented ones, of which a file has those that it needs. */
export function tableColumns(
  kind: Exclude<FileKind, 'samples'>,
  definition: LogProfileDefinition | null,
): { columns: readonly ProfileColumn[]; needed: boolean } {
  if (definition !== null && definition.columns.length > 0) return { columns: definition.columns, needed: true };
  const columns = TABLE_FIELDS[kind].map(({ name, unit }) => ({ column: name, as: name, unit, positionId: null, smallestDivision: null }));
  return { columns, needed: false };
}
