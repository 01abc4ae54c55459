import { median } from 'd3-array';
import { type Day, daysBetween } from '../../../shared/day.js';
import type { LevelPoint, LevelRun } from './level-point.js';
import { withUsualDrift } from './usual-drift.js';

/** A day of the record of a skid, as far as its membranes are judged by it. */
export interface LevelDay {
  readonly day: Day;
  readonly filtrateM3: number | null;
  readonly permeability: number | null;
  readonly fluxLmh: number | null;
}

/** Days of all records are counted from the same one. */
export const EPOCH = '2000-01-01';

/** Foulants compact, so that permeability goes with flux: a change by more than this begins another run. */
const FLUX_STEP = 0.1;
const BEFORE_VALUES = 14;
const LASTING_VALUES = 5;
const FEWEST_BEFORE = 5;

/**
 * The days on which a skid began to run at another flux, to stay: the middle of five values from that day, and that day's own, differ by more than a tenth, to the same side, from the middle of up to fourteen before.
 *
 * Source: own definition; that permeability depends on flux is common knowledge of the trade.
 *
 * @example fluxSteps([]) // => []
 */
export function fluxSteps(days: readonly Pick<LevelDay, 'day' | 'fluxLmh'>[]): Day[] {
  const known = days.flatMap(({ day, fluxLmh }) => (fluxLmh !== null && fluxLmh > 0 ? [{ day, flux: fluxLmh }] : []));
  const steps: Day[] = [];
  let from = 0;
  for (const [at, { day, flux }] of known.entries()) {
    if (at - from < FEWEST_BEFORE) continue;
    const before = median(known.slice(Math.max(from, at - BEFORE_VALUES), at), (one) => one.flux) ?? flux;
    const after = known.slice(at, at + LASTING_VALUES);
    const lasting = Math.log((median(after, (one) => one.flux) ?? before) / before);
    const own = Math.log(flux / before);
    if (after.length < LASTING_VALUES || Math.min(Math.abs(lasting), Math.abs(own)) < Math.log(1 + FLUX_STEP) || lasting * own < 0) continue;
    steps.push(day);
    from = at;
  }
  return steps;
}

/**
 * Splits the record of a skid into runs: each begins the day after a recovery clean, or with a day of `cuts` on which something else made its level another one (modules or area changed, another flux).
 * The clock is the filtrate per membrane area since then; the day of a clean itself mixes before and after. The last is the present run, and may be without values yet.
 *
 * @example levelRuns('a', [{ day: '2026-01-01', filtrateM3: 10, permeability: 200, fluxLmh: 60 }], { cleans: [], cuts: [], areaM2: 5 }) // => [{ "unit": "a", "points": [{ "dayNo": 9497, "clock": 2, "value": 200 }] }]
 */
export function levelRuns(
  unit: string,
  days: readonly Omit<LevelDay, 'fluxLmh'>[],
  { cleans, cuts, areaM2 }: { readonly cleans: readonly Day[]; readonly cuts: readonly Day[]; readonly areaM2: number },
): LevelRun[] {
  const cleaned = new Set(cleans);
  const starts = [...new Set([...cleans, ...cuts])].sort((one, other) => one.localeCompare(other));
  const runs = ['', ...starts].map((from, at) => {
    const to = starts[at];
    let clock = 0;
    const points: LevelPoint[] = [];
    for (const { day, filtrateM3, permeability } of days) {
      if (day < from || (cleaned.has(from) && day === from) || (to !== undefined && day >= to)) continue;
      clock += Math.max(0, filtrateM3 ?? 0) / areaM2;
      if (permeability !== null && permeability > 0) points.push({ dayNo: daysBetween(EPOCH, day), clock, value: permeability });
    }
    return { unit, points };
  });
  return withUsualDrift(runs);
}
