import type { Day } from '../../shared/day.js';
import { neatLitresPerHour } from './dose.js';

/** What ran on a day: filtrate that was dosed, and chemical cleans with this chemical. */
export interface UseDay {
  readonly day: Day;
  readonly filtrateM3: number;
  readonly cebs: number;
  readonly cips: number;
}

/** What the set points ask for; `null` is none of it. */
export interface Recipe {
  readonly doseMgL: number | null;
  readonly litresPerCeb: number | null;
  readonly litresPerCip: number | null;
}

export interface ExpectedUse {
  readonly litres: number;
  readonly byDose: number;
  readonly byCebs: number;
  readonly byCips: number;
  /** Of each day, in order */
  readonly daily: readonly number[];
}

/**
 * Product that should have been used over some days, L: dose x filtrate / strength of the day, and the litres of each clean. Flow times hours is the filtrate.
 * The litres of a clean are as set, whatever the strength. `null` where a dose is set and the strength of a day is not known.
 *
 * Source: mass balance; common practice.
 *
 * @example expectedUse([{ day: '2025-11-01', filtrateM3: 500, cebs: 1, cips: 0 }], { doseMgL: 2, litresPerCeb: 3, litresPerCip: null }, () => 125) // => { "litres": 11, "byDose": 8, "byCebs": 3, "byCips": 0, "daily": [11] }
 */
export function expectedUse(days: readonly UseDay[], recipe: Recipe, strengthGL: (day: Day) => number | null): ExpectedUse | null {
  const { doseMgL, litresPerCeb, litresPerCip } = recipe;
  const daily: number[] = [];
  let [byDose, byCebs, byCips] = [0, 0, 0];
  for (const { day, filtrateM3, cebs, cips } of days) {
    const dosed = doseMgL === null || doseMgL === 0 ? 0 : neatLitresPerHour(doseMgL, filtrateM3, strengthGL(day) ?? 0);
    if (dosed === null) return null;
    const [maintenance, recovery] = [cebs * (litresPerCeb ?? 0), cips * (litresPerCip ?? 0)];
    byDose += dosed;
    byCebs += maintenance;
    byCips += recovery;
    daily.push(dosed + maintenance + recovery);
  }
  return { litres: byDose + byCebs + byCips, byDose, byCebs, byCips, daily };
}
