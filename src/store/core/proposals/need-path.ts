import { changeChances } from '../demand/outlooks/change-chances.js';
import type { DemandSources, OutlookRecord } from '../demand/types.js';

/** So far ahead the need is followed. */
export const PATH_DAYS = 182;
/** Outlooks and use change slowly from day to day. */
const STEP = 7;

/** Expected need up to and with each day from today on. */
export type NeedPath = readonly number[];

/**
 * Mean need by each day of the coming half year: work on its day, fitted parts by the probability of their change, the rest spread evenly. Work that is reserved
 * already is left out, as in the need itself.
 */
export function needPath({ planned, fitted }: Pick<DemandSources, 'planned' | 'fitted'>, restPerDay: number, record: OutlookRecord): NeedPath {
  const path = Array.from({ length: PATH_DAYS + 1 }, (_, day) => restPerDay * day);
  for (const { quantity, reserved, inDays } of planned) {
    const open = Math.max(0, quantity - reserved);
    for (let day = Math.max(0, Math.ceil(inDays)); day <= PATH_DAYS && open > 0; day++) path[day] = (path[day] ?? 0) + open;
  }
  for (const part of fitted) {
    const once = { ...part, nextLifeDays: null };
    let before = 0;
    for (let day = STEP; day <= PATH_DAYS; day += STEP) {
      const by = part.quantity * changeChances(once, day, record).once;
      for (let step = 1; step <= STEP; step++) path[day - STEP + step] = (path[day - STEP + step] ?? 0) + before + ((by - before) * step) / STEP;
      before = by;
    }
  }
  return path;
}

/**
 * The first day by which the expected need has reached so much; null beyond the path.
 *
 * @example dayOfNeed([0, 0.5, 1, 1.5], 1) // => 2
 * @example dayOfNeed([0, 0.5], 1) // => null
 */
export function dayOfNeed(path: NeedPath, pieces: number): number | null {
  const day = path.findIndex((need) => need >= pieces - 1e-9);
  return day === -1 ? null : day;
}

/** What lies there until a day. */
export interface LotLeft {
  readonly inDays: number;
  readonly quantity: number;
}

/**
 * Pieces that will be past their day before they are used, when what expires first is taken first and need is as expected.
 *
 * @example willExpire([{ inDays: 1, quantity: 2 }, { inDays: 2, quantity: 3 }], [0, 1, 2]) // => 3
 */
export function willExpire(lots: readonly LotLeft[], path: NeedPath): number {
  let [used, lost] = [0, 0];
  for (const { inDays, quantity } of lots.toSorted((a, b) => a.inDays - b.inDays)) {
    if (inDays >= path.length) break;
    const until = Math.max(0, (path[Math.max(0, inDays)] ?? 0) - used);
    const taken = Math.min(quantity, until);
    used += taken;
    lost += quantity - taken;
  }
  return Math.round(lost);
}
