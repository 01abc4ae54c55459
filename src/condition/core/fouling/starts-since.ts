import type { Day } from '../../../shared/day.js';
import type { FoulingDay } from './resistance-parts.js';

/** A day with a permeability just after hydraulic cleans, by the filtrate per area since a day. */
export interface StartOfRuns {
  readonly day: Day;
  readonly lmhBar: number;
  readonly loadLPerM2: number;
}

const LITRES = 1000;

/**
 * The days after `since` of which both the start of runs and the filtrate are known, with the filtrate per area until the middle of each, and until the last day of the record.
 *
 * @example startsSince([{ day: '2026-01-02', startLmhBar: 200, meanLmhBar: 190, loadM3PerM2: 1 }], '') // => { "starts": [{ "day": "2026-01-02", "lmhBar": 200, "loadLPerM2": 500 }], "loadLPerM2": 1000 }
 */
export function startsSince(days: readonly FoulingDay[], since: Day): { readonly starts: readonly StartOfRuns[]; readonly loadLPerM2: number } {
  let loadLPerM2 = 0;
  const starts: StartOfRuns[] = [];
  for (const { day, startLmhBar, loadM3PerM2 } of days) {
    if (day <= since) continue;
    const ofDay = (loadM3PerM2 ?? 0) * LITRES;
    // The value of a day stands for its middle.
    if (startLmhBar !== null && startLmhBar > 0 && loadM3PerM2 !== null) starts.push({ day, lmhBar: startLmhBar, loadLPerM2: loadLPerM2 + ofDay / 2 });
    loadLPerM2 += ofDay;
  }
  return { starts, loadLPerM2 };
}
