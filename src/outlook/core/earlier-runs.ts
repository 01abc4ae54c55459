import { sum } from 'd3-array';
import type { Day } from '../../shared/day.js';
import { endOfSet } from './clogging/end-of-set.js';

/** A day of the record, as far as earlier parts and runs need it. */
export interface RecordDay {
  readonly day: Day;
  readonly filtrateM3: number | null;
  readonly permeability: number | null;
  readonly cartridgeDpKpa: number | null;
}

export interface EarlierSet {
  readonly fittedOn: Day;
  readonly removedOn: Day;
  /** Why it was removed, in words */
  readonly reason?: string | null;
}

export interface EarlierLife {
  readonly loadM3: number;
  readonly ended: 'limit' | 'censored';
}

/**
 * What earlier sets of cartridges ran through, the latest first: filtrate from the day each was fitted to the day it was removed. A set that was fitted before the
 * record begins is left out, since its load is not known. A set changed well before its limit is censored: it would have lived longer (`endOfSet`).
 *
 * Source: own composition; censoring as in survival analysis.
 *
 * @example earlierLives([{ day: '2026-01-01', filtrateM3: 100, permeability: null, cartridgeDpKpa: 95 }, { day: '2026-01-02', filtrateM3: 100, permeability: null, cartridgeDpKpa: 99 }], [{ fittedOn: '2026-01-01', removedOn: '2026-01-03' }], 100) // => [{ "loadM3": 200, "ended": "limit" }]
 */
export function earlierLives(days: readonly RecordDay[], sets: readonly EarlierSet[], limitKpa: number): EarlierLife[] {
  const begin = days[0]?.day;
  return sets
    .filter(({ fittedOn }) => begin !== undefined && fittedOn >= begin)
    .map(({ fittedOn, removedOn, reason = null }): EarlierLife => {
      const run = days.filter(({ day }) => day >= fittedOn && day < removedOn);
      const values = run.flatMap(({ day, cartridgeDpKpa }) => (cartridgeDpKpa === null ? [] : [{ day, dpKpa: cartridgeDpKpa }]));
      return { loadM3: sum(run, ({ filtrateM3 }) => filtrateM3), ended: endOfSet({ fittedOn, removedOn, reason, limitKpa, values }) };
    })
    .filter(({ loadM3 }) => loadM3 > 0)
    .reverse();
}
