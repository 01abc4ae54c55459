import { SIGNALS, type SignalCode } from '../../shared/signals.js';
import type { UnitCode } from '../../shared/units.js';
import { type FieldFault, faultsOfEvent } from './event.js';
import { measuredValue } from './measured-value.js';
import { readingError } from './reading-error.js';
import type { SkidMachines } from './skid-machines.js';

/** One look at the gauges of a skid, as a person wrote it down. */
export interface HandEntry {
  readonly minutesSinceBackwash: number | null;
  readonly note: string;
  readonly readBy: string;
  readonly values: readonly HandEntryValue[];
  readonly meters: readonly { readonly meterId: string; readonly value: number; readonly column: string }[];
  readonly tanks: readonly {
    readonly tankId: string;
    readonly levelM: number;
    readonly strengthGL: number | null;
    readonly readingErrorM: number;
    readonly column: string;
  }[];
}

interface HandEntryValue {
  readonly signal: SignalCode;
  readonly value: number;
  readonly unit: UnitCode;
  /** Of the gauge, in `unit`; null where nobody said */
  readonly smallestDivision: number | null;
  /** As the person wrote it */
  readonly written: string;
  /** Where in the sheet or the request it stands */
  readonly column: string;
}

export interface HandFacts {
  readonly values: readonly {
    readonly signal: SignalCode;
    readonly value: number;
    readonly entered: number;
    readonly enteredUnit: UnitCode;
    readonly readingError: number;
  }[];
  readonly meters: readonly { readonly meterId: string; readonly value: number }[];
  readonly tanks: readonly { readonly tankId: string; readonly levelM: number; readonly strengthGL: number | null; readonly readingError: number }[];
}

export type HandEntryCheck = { readonly kind: 'facts'; readonly facts: HandFacts } | { readonly kind: 'faults'; readonly faults: readonly FieldFault[] };

const LONGEST_SINCE_BACKWASH_MINUTES = 10_080;

/** What a look at the gauges says, in stored units with the error of each gauge; or everything that cannot be so. Machines must be those of the skid. */
export function checkHandEntry(entry: HandEntry, machines: SkidMachines): HandEntryCheck {
  const faults: FieldFault[] = [];
  const fault = (column: string | null, value: string | number | null, message: string) =>
    faults.push({ column, value: value === null ? null : String(value), message });
  const { minutesSinceBackwash } = entry;
  if (minutesSinceBackwash !== null && !(minutesSinceBackwash >= 0 && minutesSinceBackwash <= LONGEST_SINCE_BACKWASH_MINUTES)) {
    fault('minutesSinceBackwash', minutesSinceBackwash, 'is not between 0 and 10080 minutes');
  }
  if (entry.values.length + entry.meters.length + entry.tanks.length === 0) fault(null, null, 'holds no reading at all');

  const values = entry.values.flatMap(({ signal, value, unit, smallestDivision, written, column }, i) => {
    const measured = measuredValue(signal, value, unit);
    if ('ofPosition' in SIGNALS[signal]) fault(column, signal, 'belongs to a machine: enter it as a meter of that machine');
    else if (measured.kind === 'impossible') fault(column, written, measured.reason);
    else if (entry.values.findIndex((other) => other.signal === signal) < i) fault(column, signal, 'comes twice in one reading');
    else return [{ signal, value: measured.value, entered: value, enteredUnit: unit, readingError: readingError(smallestDivision, written, unit) }];
    return [];
  });
  for (const [i, { meterId, value, column }] of entry.meters.entries()) {
    if (entry.meters.findIndex((other) => other.meterId === meterId) < i) fault(column, meterId, 'comes twice in one reading');
    faults.push(...faultsOfEvent({ kind: 'reading', meterId, value }, machines).map((each) => ({ ...each, column })));
  }
  for (const [i, { column, ...dip }] of entry.tanks.entries()) {
    if (entry.tanks.findIndex((other) => other.tankId === dip.tankId) < i) fault(column, dip.tankId, 'comes twice in one reading');
    faults.push(...faultsOfEvent({ kind: 'dip', ...dip }, machines).map((each) => ({ ...each, column })));
  }
  if (faults.length > 0) return { kind: 'faults', faults };
  const meters = entry.meters.map(({ meterId, value }) => ({ meterId, value }));
  const tanks = entry.tanks.map(({ tankId, levelM, strengthGL, readingErrorM }) => ({ tankId, levelM, strengthGL, readingError: readingErrorM }));
  return { kind: 'facts', facts: { values, meters, tanks } };
}
