import { isSignalCode, SIGNALS } from '../../shared/signals.js';
import { UNITS } from '../../shared/units.js';
import type { LogProfileDefinition, ProfileColumn, ProfileKind } from './log-profile.js';
import { unitFits } from './measured-value.js';
import type { SkidMachines } from './skid-machines.js';
import { TABLE_FIELDS } from './table-fields.js';
import { timeParser } from './time-format.js';
import { isTimeZone } from './zone-clock.js';

export interface ProfileFault {
  /** In the definition, as in `columns/3/unit` */
  readonly pointer: string;
  readonly message: string;
}

/** Everything about a profile that could not work: formats that are none, units that do not measure the signal, machines of another skid, doubled columns. */
export function faultsOfProfile(kind: ProfileKind, definition: LogProfileDefinition, machines: SkidMachines): ProfileFault[] {
  const { timeFormat, timeZone, timeColumn, columns, decimal, delimiter } = definition;
  const faults: ProfileFault[] = [];
  if (timeParser(timeFormat) === undefined) faults.push({ pointer: 'timeFormat', message: `"${timeFormat}" is no format with year, month and day` });
  if (timeZone !== 'site' && !isTimeZone(timeZone)) faults.push({ pointer: 'timeZone', message: `"${timeZone}" is no time zone, such as Europe/Berlin` });
  if (decimal === ',' && delimiter === ',') faults.push({ pointer: 'decimal', message: 'a comma cannot be both the decimal mark and between cells' });
  if (columns.length === 0 && (kind === 'samples' || kind === 'hand')) faults.push({ pointer: 'columns', message: 'no column is named' });
  for (const [i, column] of columns.entries()) {
    const pointer = `columns/${i}`;
    const earlier = columns.slice(0, i);
    if (kind !== 'hand' && (column.column === timeColumn || earlier.some((other) => other.column === column.column))) {
      faults.push({ pointer: `${pointer}/column`, message: `"${column.column}" is named twice` });
    }
    if (earlier.some((other) => other.as === column.as && other.positionId === column.positionId)) {
      faults.push({ pointer: `${pointer}/as`, message: `${column.as} comes twice` });
    }
    const own = kind === 'samples' || kind === 'hand' ? faultOfSignal(kind, column, machines) : faultOfField(kind, column);
    if (own !== null) faults.push({ pointer: `${pointer}/${own.field}`, message: own.message });
  }
  return faults;
}

type ColumnFault = { readonly field: keyof ProfileColumn; readonly message: string } | null;

function faultOfSignal(kind: 'samples' | 'hand', { as, unit, positionId }: ProfileColumn, { positions }: SkidMachines): ColumnFault {
  if (!isSignalCode(as)) return { field: 'as', message: `"${as}" is no signal` };
  if (unit === null) return { field: 'unit', message: `${as} needs a unit` };
  if (!unitFits(as, unit)) return { field: 'unit', message: `${unit} does not measure a ${SIGNALS[as].dimension}` };
  const ofPosition = 'ofPosition' in SIGNALS[as];
  if (kind === 'hand') return ofPosition ? { field: 'as', message: `${as} belongs to a machine, whose meters are on the sheet anyway` } : null;
  if (ofPosition && positionId === null) return { field: 'positionId', message: `${as} belongs to a machine: say which` };
  if (!ofPosition && positionId !== null) return { field: 'positionId', message: `${as} belongs to the skid as a whole` };
  if (positionId !== null && !positions.some(({ id }) => id === positionId)) return { field: 'positionId', message: 'is no position of this skid' };
  return null;
}

function faultOfField(kind: 'cycles' | 'events', { as, unit, positionId }: ProfileColumn): ColumnFault {
  const field = TABLE_FIELDS[kind].find(({ name }) => name === as);
  if (field === undefined) return { field: 'as', message: `"${as}" is no field of ${kind}` };
  if (positionId !== null) return { field: 'positionId', message: `${as} belongs to no position` };
  if (field.dimension === null) return unit === null ? null : { field: 'unit', message: `${as} is text and has no unit` };
  if (unit === null) return { field: 'unit', message: `${as} needs a unit` };
  return UNITS[unit].dimension === field.dimension ? null : { field: 'unit', message: `${unit} does not measure a ${field.dimension}` };
}
