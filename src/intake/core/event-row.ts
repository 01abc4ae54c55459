import { type EventFact, type FieldFault, faultsOfEvent } from './event.js';
import type { FieldsRead } from './read-fields.js';
import { readingError } from './reading-error.js';
import type { SkidMachines } from './skid-machines.js';

export type EventRead =
  | { readonly kind: 'event'; readonly event: EventFact; readonly by: string | null }
  | { readonly kind: 'faults'; readonly faults: readonly FieldFault[] };

type Values = FieldsRead['values'];

/** An event as a row of a file tells it: its kind in `event`, its machine by name. A field that the kind does not have is not looked at. */
export function readEvent({ values, faults: read }: FieldsRead, machines: SkidMachines): EventRead {
  const faults = [...read];
  const event = eventOf(values, machines, (column, value, message) => {
    faults.push({ column, value, message });
  });
  if (event !== null) faults.push(...faultsOfEvent(event, machines));
  return faults.length > 0 || event === null ? { kind: 'faults', faults } : { kind: 'event', event, by: textOf(values, 'by') };
}

type Fault = (column: string, value: string | null, message: string) => void;

function textOf(values: Values, field: string): string | null {
  const value = values[field];
  return value === undefined ? null : String(value);
}

function numberOf(values: Values, field: string): number | null {
  const value = values[field];
  return typeof value === 'number' ? value : null;
}

/** Null: something that it cannot do without is missing, and has been said. */
function eventOf(values: Values, machines: SkidMachines, fault: Fault): EventFact | null {
  const needText = (field: string) => textOf(values, field) ?? missing(field, fault);
  const needNumber = (field: string) => numberOf(values, field) ?? missing(field, fault);
  const note = textOf(values, 'note') ?? '';
  const kind = needText('event')?.toLowerCase();
  switch (kind) {
    case 'ceb':
    case 'cip': {
      const chemical = needText('chemical');
      const [strengthMgL, contactMinutes] = [numberOf(values, 'strength_mg_l'), numberOf(values, 'contact_minutes')];
      return chemical === null ? null : { kind: 'clean', clean: kind === 'ceb' ? 'CEB' : 'CIP', chemical, strengthMgL, contactMinutes, note };
    }
    case 'reading':
    case 'exchange': {
      const [meterId, value] = [meterNamed(values, machines, fault), needNumber('value')];
      const oldFinal = kind === 'exchange' ? needNumber('old_final') : 0;
      if (meterId === null || value === null || oldFinal === null) return null;
      return kind === 'reading' ? { kind, meterId, value } : { kind, meterId, oldFinal, value };
    }
    case 'dip': {
      const [tankId, levelM] = [tankNamed(values, machines, fault), needNumber('level_m')];
      if (tankId === null || levelM === null) return null;
      return { kind, tankId, levelM, strengthGL: numberOf(values, 'strength_g_l'), readingErrorM: readingError(null, String(levelM), 'm') };
    }
    case 'delivery': {
      const [tankId, volumeL] = [tankNamed(values, machines, fault), needNumber('volume_l')];
      if (tankId === null || volumeL === null) return null;
      return { kind, tankId, volumeL, strengthGL: numberOf(values, 'strength_g_l'), lot: textOf(values, 'lot') };
    }
    case 'service': {
      const task = needText('task');
      const positionId = textOf(values, 'position') === null ? null : positionNamed(values, machines, fault);
      return task === null ? null : { kind, positionId, task, minutes: numberOf(values, 'minutes'), note };
    }
    case 'fitted': {
      const [positionId, itemCode] = [positionNamed(values, machines, fault), needText('item')];
      if (positionId === null || itemCode === null) return null;
      const [serialNumber, lot, reason] = [textOf(values, 'serial_number'), textOf(values, 'lot'), textOf(values, 'reason')];
      return { kind, positionId, itemCode, serialNumber, lot, setCount: numberOf(values, 'set_count') ?? 1, reason };
    }
    case 'removed': {
      const positionId = positionNamed(values, machines, fault);
      return positionId === null ? null : { kind, positionId, reason: textOf(values, 'reason') };
    }
    case undefined:
      return null;
    default:
      fault('event', textOf(values, 'event'), 'is none of CEB, CIP, reading, exchange, dip, delivery, service, fitted, removed');
      return null;
  }
}

function missing(field: string, fault: Fault): null {
  fault(field, null, 'is missing for an event of this kind');
  return null;
}

function positionNamed(values: Values, { positions }: SkidMachines, fault: Fault): string | null {
  const name = textOf(values, 'position');
  if (name === null) return missing('position', fault);
  const position = positions.find((each) => each.name === name);
  if (position === undefined) fault('position', name, 'is the name of no position of this skid');
  return position?.id ?? null;
}

/** The meter of a position; its kind needs to be said only where the position has more than one. */
function meterNamed(values: Values, { meters }: SkidMachines, fault: Fault): string | null {
  const name = textOf(values, 'position');
  if (name === null) return missing('position', fault);
  const kind = textOf(values, 'meter');
  const found = meters.filter((each) => each.positionName === name && (kind === null || each.kind === kind.toLowerCase()));
  if (found.length === 0) fault('position', name, kind === null ? 'has no meter on this skid' : 'has no such meter on this skid');
  if (found.length > 1) fault('meter', null, 'is missing: the position has more than one');
  return found.length === 1 ? (found[0]?.id ?? null) : null;
}

function tankNamed(values: Values, { tanks }: SkidMachines, fault: Fault): string | null {
  const name = textOf(values, 'tank');
  if (name === null) return missing('tank', fault);
  const tank = tanks.find((each) => each.name === name);
  if (tank === undefined) fault('tank', name, 'is the name of no tank of this skid');
  return tank?.id ?? null;
}
