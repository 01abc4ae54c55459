import type { JobKind, Severity } from '../../../shared/work.js';
import { momentAtSite } from './moment-at-site.js';
import { timesAtOdds } from './times-at-odds.js';

/** What an old record says of a failure. */
export interface OldFailure {
  readonly severity: Severity;
  readonly downFrom: string | null;
  readonly restoredAt: string | null;
  readonly failureMode: string | null;
  readonly mechanism: string | null;
  readonly cause: string;
  readonly remedy: string;
}

/** One line of an old record of work. */
export interface OldWork {
  readonly at: string;
  readonly title: string;
  readonly kind: JobKind;
  readonly positionId: string | null;
  readonly minutes: number | null;
  readonly by: string;
  readonly note: string;
  readonly failure: OldFailure | null;
}

/** The same with its times understood. */
export interface ReadOldWork extends Omit<OldWork, 'at' | 'failure'> {
  readonly at: Date;
  readonly failure: (Omit<OldFailure, 'downFrom' | 'restoredAt'> & { readonly downFrom: Date | null; readonly restoredAt: Date | null }) | null;
}

export interface RowFault {
  /** Its place in the list, from 0 */
  readonly index: number;
  readonly field: string;
  readonly message: string;
}

/** Reads the rows of an old record. Every row that cannot be so is told with its field; the others are given back in the order of the record. */
export function readOldWork(rows: readonly OldWork[], timeZone: string, now: Date): { readonly rows: ReadOldWork[]; readonly faults: RowFault[] } {
  const faults: RowFault[] = [];
  const read = rows.flatMap((row, index): ReadOldWork[] => {
    const before = faults.length;
    const fault = (field: string, message: string) => faults.push({ index, field, message });
    const moment = (field: string, text: string | null): Date | null => {
      if (text === null) return null;
      const at = momentAtSite(text, timeZone);
      if (at === null) fault(field, `must be a day such as 2019-04-10, or a moment with its offset; seen: ${text}`);
      return at;
    };
    const at = moment('at', row.at);
    if (at !== null && at > now) fault('at', `must not be in the future; seen: ${row.at}`);
    if (row.failure === null && row.kind === 'breakdown') fault('failure', 'a breakdown needs its failure, with the severity at least');
    if (row.failure !== null && row.kind !== 'breakdown') fault('kind', `work with a failure is a breakdown; seen: ${row.kind}`);
    const failure =
      row.failure === null
        ? null
        : { ...row.failure, downFrom: moment('failure/downFrom', row.failure.downFrom), restoredAt: moment('failure/restoredAt', row.failure.restoredAt) };
    if (failure !== null && at !== null && faults.length === before) {
      // A record of days: restored on the day of the stop is not before it.
      const noticedAt = failure.restoredAt !== null && failure.restoredAt < at ? failure.restoredAt : at;
      for (const { field, message } of timesAtOdds({ ...failure, noticedAt, repairMinutes: null }, now)) {
        fault(`failure/${field}`, message);
      }
    }
    return at === null || faults.length > before ? [] : [{ ...row, at, failure }];
  });
  return { rows: read, faults };
}
