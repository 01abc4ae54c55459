import type { ServiceState } from '../../../shared/service-states.js';
import { earliest, latest, type Span } from './spans.js';

/** The service states of a skid, as far as they are on record. */
export interface ServiceRecord {
  /** In order of time */
  readonly changes: readonly { readonly at: Date; readonly state: ServiceState }[];
  /** Its state where no change is on record */
  readonly state: ServiceState;
  readonly commissionedAt: Date | null;
  readonly endedAt: Date | null;
}

/**
 * The times in a period in which a skid was asked to give water: in service. Commissioning, lay-up, out of service and after retirement are not asked for; standby is.
 * Before the first change on record it counts as in service since its commissioning, or all along where that day is not known and nothing says otherwise.
 *
 * Source: required time as in EN 13306 and EN 15341 (the time in which the user wants the item to be able to work).
 */
export function requiredSpans({ changes, state, commissionedAt, endedAt }: ServiceRecord, period: Span): Span[] {
  const first = changes[0];
  const before = first === undefined ? state : 'in service';
  const start = commissionedAt ?? (first?.state === 'in service' ? first.at : period.from);
  const marks = [{ at: start, state: before }, ...changes.map((change) => (change.at < start ? { ...change, at: start } : change))];
  return marks.flatMap(({ at, state: now }, index) => {
    if (now !== 'in service') return [];
    const next = marks[index + 1]?.at ?? period.to;
    const from = latest(at, period.from);
    const to = earliest(next, endedAt ?? period.to, period.to);
    return to > from ? [{ from, to }] : [];
  });
}
