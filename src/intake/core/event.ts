import type { SkidMachines } from './skid-machines.js';

/** Something that cannot be so: where it stands, what stood there, and why, to be put behind the value. */
export interface FieldFault {
  readonly column: string | null;
  readonly value: string | null;
  readonly message: string;
}

/** What stood on a delivery besides its volume. */
export interface DeliveryLabel {
  readonly product: string | null;
  /** The strength as it was stated */
  readonly strengthValue: number | null;
  readonly strengthBasis: string | null;
  readonly densityKgL: number | null;
  readonly expiresOn: string | null;
  /** Where it came out of another tank of the site */
  readonly fromTankId: string | null;
}

/** Something that happened at a skid and that no sensor saw. */
export type EventFact =
  | {
      readonly kind: 'clean';
      readonly clean: 'CEB' | 'CIP';
      readonly chemical: string;
      readonly strengthMgL: number | null;
      readonly contactMinutes: number | null;
      readonly note: string;
    }
  | { readonly kind: 'reading'; readonly meterId: string; readonly value: number }
  /** `value` is the first of the new meter */
  | { readonly kind: 'exchange'; readonly meterId: string; readonly oldFinal: number; readonly value: number }
  | { readonly kind: 'dip'; readonly tankId: string; readonly levelM: number; readonly strengthGL: number | null; readonly readingErrorM: number }
  | {
      readonly kind: 'delivery';
      readonly tankId: string;
      readonly volumeL: number;
      readonly strengthGL: number | null;
      readonly lot: string | null;
      readonly label?: DeliveryLabel;
    }
  | { readonly kind: 'service'; readonly positionId: string | null; readonly task: string; readonly minutes: number | null; readonly note: string }
  | {
      readonly kind: 'fitted';
      readonly positionId: string;
      readonly itemCode: string;
      readonly serialNumber: string | null;
      readonly lot: string | null;
      readonly setCount: number;
      /** Why the part before it was removed */
      readonly reason: string | null;
    }
  | { readonly kind: 'removed'; readonly positionId: string; readonly reason: string | null };

/** What can be: [lowest, highest, in words]. Common practice; they catch wrong units and slips, not faults. */
const RANGES = {
  strengthMgL: [0, 200_000, 'is not a strength between 0 and 200000 mg/L'],
  contactMinutes: [0, 10_080, 'is not a time between 0 and 10080 minutes'],
  value: [0, 1e9, 'is not possible for a meter'],
  oldFinal: [0, 1e9, 'is not possible for a meter'],
  strengthGL: [0, 2_000, 'is not a strength between 0 and 2000 g/L'],
  volumeL: [1e-6, 1e6, 'is not a volume above 0 and up to 1000000 L'],
  minutes: [0, 14_400, 'is not a time between 0 and 14400 minutes'],
  setCount: [1, 100_000, 'is not a number of parts from 1'],
} as const satisfies Record<string, readonly [number, number, string]>;
const LONGEST_TEXT = { chemical: 100, task: 200, itemCode: 60, serialNumber: 100, lot: 100, reason: 200, note: 1_000 } as const;
/** A dip may read a little above the tank: foam, and the stick held askew. Common practice. */
const LEVEL_TOLERANCE = 1.02;

/** Everything about an event that cannot be so; its machine must be one of the skid. */
export function faultsOfEvent(event: EventFact, machines: SkidMachines): FieldFault[] {
  const fields = event as unknown as Readonly<Record<string, unknown>>;
  const faults: FieldFault[] = [];
  for (const [field, [low, high, message]] of Object.entries(RANGES)) {
    const value = fields[field];
    if (typeof value === 'number' && !(value >= low && value <= high)) faults.push({ column: field, value: String(value), message });
  }
  for (const [field, longest] of Object.entries(LONGEST_TEXT)) {
    const text = fields[field];
    if (typeof text !== 'string') continue;
    if (text.length > longest) faults.push({ column: field, value: text, message: `is longer than ${longest} characters` });
    if (text.includes('\0')) faults.push({ column: field, value: text, message: 'holds a character that cannot be stored (U+0000)' });
  }
  return [...faults, ...faultsOfPlace(event, machines)];
}

function faultsOfPlace(event: EventFact, machines: SkidMachines): FieldFault[] {
  const fault = (column: string, value: string, message: string) => [{ column, value, message }];
  switch (event.kind) {
    case 'clean':
      return event.chemical.trim() === '' ? fault('chemical', '', 'is empty') : [];
    case 'reading':
    case 'exchange': {
      const meter = machines.meters.find(({ id }) => id === event.meterId);
      if (meter === undefined) return fault('meterId', event.meterId, 'is no meter of this skid');
      return meter.modulus !== null && event.value >= meter.modulus ? fault('value', String(event.value), 'is more than this meter can show') : [];
    }
    case 'dip':
    case 'delivery': {
      const tank = machines.tanks.find(({ id }) => id === event.tankId);
      if (tank === undefined) return fault('tankId', event.tankId, 'is no tank of this skid');
      const tooHigh = event.kind === 'dip' && !(event.levelM >= 0 && event.levelM <= tank.heightM * LEVEL_TOLERANCE);
      return tooHigh
        ? fault('levelM', String(event.levelM), 'is not between empty and the height of the tank: read the stick again, and look at its unit')
        : [];
    }
    default: {
      const { positionId } = event;
      if (event.kind === 'service' && event.task.trim() === '') return fault('task', '', 'is empty');
      if (positionId === null || machines.positions.some(({ id }) => id === positionId)) return [];
      return fault('positionId', positionId, 'is no position of this skid');
    }
  }
}
