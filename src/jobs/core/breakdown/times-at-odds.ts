import type { DownTimes } from './down-time.js';

export interface BreakdownTimes extends DownTimes {
  readonly noticedAt: Date;
  readonly repairMinutes: number | null;
}

export interface FieldAtOdds {
  readonly field: 'noticedAt' | 'downFrom' | 'restoredAt' | 'repairMinutes';
  readonly message: string;
}

/** The clocks of two computers differ a little. */
const CLOCK_TOLERANCE_MS = 5 * 60_000;

/**
 * The times of a breakdown that contradict each other or lie ahead, each with what to do; empty where all may be so. A repair may not have taken longer than the skid
 * was down for one person, but several people repair at once, so minutes of work are only asked to be possible.
 *
 * @example timesAtOdds({ noticedAt: new Date('2025-11-03T08:00:00Z'), downFrom: null, restoredAt: null, repairMinutes: null }, new Date('2025-11-03T09:00:00Z')) // => []
 */
export function timesAtOdds({ noticedAt, downFrom, restoredAt, repairMinutes }: BreakdownTimes, now: Date): FieldAtOdds[] {
  const faults: FieldAtOdds[] = [];
  for (const [field, at] of [
    ['noticedAt', noticedAt],
    ['downFrom', downFrom],
    ['restoredAt', restoredAt],
  ] as const) {
    if (at !== null && at.getTime() > now.getTime() + CLOCK_TOLERANCE_MS)
      faults.push({ field, message: `must not be in the future; seen: ${at.toISOString()}` });
  }
  if (downFrom !== null && restoredAt !== null && restoredAt < downFrom) {
    faults.push({ field: 'restoredAt', message: `must not lie before the stop at ${downFrom.toISOString()}; seen: ${restoredAt.toISOString()}` });
  }
  if (downFrom === null && restoredAt !== null && restoredAt < noticedAt) {
    faults.push({
      field: 'restoredAt',
      message: `lies before it was noticed at ${noticedAt.toISOString()}: say in downFrom when it stopped; seen: ${restoredAt.toISOString()}`,
    });
  }
  if (repairMinutes !== null && !(repairMinutes >= 0 && repairMinutes <= 60_000)) {
    faults.push({ field: 'repairMinutes', message: `must lie between 0 and 60000; seen: ${repairMinutes}` });
  }
  return faults;
}
