import type { Day } from '../../../shared/day.js';
import type { RecordDay } from '../earlier-runs.js';
import type { Course } from './course.js';
import { endOfSet } from './end-of-set.js';

const FEWEST_VALUES = 3;
const MOST_VALUES = 80;

export interface SetRun {
  readonly fittedOn: Day;
  /** null: still fitted */
  readonly removedOn: Day | null;
  /** Why it was removed, in words */
  readonly reason?: string | null;
  readonly cartridges: number;
  readonly limitKpa: number;
}

/** How the pressure drop of a set went, with what ran through each cartridge; `life` until the end of the record or the change. */
export interface SetCourse extends Course {
  readonly life: number;
  readonly ended: 'limit' | 'censored';
}

/**
 * Course of a set of cartridges from the days of a record: filtrate for each cartridge since it was fitted, and the pressure drop as a share of the limit. Days without a value or with one of nought or below are left
 * out, and so is the day of the change, which mixes two sets. A long course is thinned to 80 values, the last among them.
 *
 * `null` for a set that was fitted before the record begins, has fewer than three values or saw no water: what it ran through, or how, is not known. A limit of nought or below is none.
 *
 * @example setCourse([], { fittedOn: '2026-01-01', removedOn: null, cartridges: 7, limitKpa: 150 }) // => null
 */
export function setCourse(days: readonly RecordDay[], { fittedOn, removedOn, reason = null, cartridges, limitKpa }: SetRun): SetCourse | null {
  const begin = days[0]?.day;
  if (begin === undefined || fittedOn < begin || !(limitKpa > 0) || !(cartridges > 0)) return null;
  let load = 0;
  const points: { day: Day; dpKpa: number; clock: number; level: number }[] = [];
  for (const { day, filtrateM3, cartridgeDpKpa } of days) {
    if (day < fittedOn || (removedOn !== null && day >= removedOn)) continue;
    load += Math.max(0, filtrateM3 ?? 0) / cartridges;
    if (day !== fittedOn && cartridgeDpKpa !== null && cartridgeDpKpa > 0 && load > 0)
      points.push({ day, dpKpa: cartridgeDpKpa, clock: load, level: cartridgeDpKpa / limitKpa });
  }
  if (points.length < FEWEST_VALUES || !(load > 0)) return null;
  const every = Math.ceil(points.length / MOST_VALUES);
  const kept = points.filter((_, at) => (points.length - 1 - at) % every === 0);
  return {
    clock: kept.map(({ clock }) => clock),
    level: kept.map(({ level }) => level),
    life: load,
    ended: removedOn === null ? 'censored' : endOfSet({ fittedOn, removedOn, reason, limitKpa, values: points }),
  };
}
