import { deviation, mean } from 'd3-array';
import type { Balance } from './balance.js';

/** Product used on a day, L, with its scatter and the days it comes from. */
export interface DailyUse {
  readonly meanL: number;
  readonly sdL: number;
  readonly days: number;
}

/** How far the use of a plant may lie from its set points before a balance says anything. Common practice. */
const USUAL_ERROR_SHARE = 0.2;

/**
 * Daily use to reckon cover with: the mean of what was expected on recent days, corrected by what the dips showed. The ratio of the last balance counts by how sure it is
 * against a usual 20 %; a balance whose dips do not fit says nothing. Users outside the skids, whose days are not known one by one, add their scatter. `null` without days.
 *
 * Source: precision-weighted mean, common practice.
 *
 * @example dailyUseOf([8, 10, 12], null) // => {"meanL": 10, "sdL": 2, "days": 3}
 */
export function dailyUseOf(expectedDailyL: readonly number[], balance: Balance | null, outsideSdL = 0): DailyUse | null {
  const expected = mean(expectedDailyL);
  if (expected === undefined) return null;
  const correction = correctionBy(balance);
  return { meanL: expected * correction, sdL: Math.hypot(deviation(expectedDailyL) ?? expected, outsideSdL) * correction, days: expectedDailyL.length };
}

function correctionBy(balance: Balance | null): number {
  if (balance === null || balance.ratio === null || balance.verdict === 'dips do not fit') return 1;
  const errorShare = balance.errorL / balance.expectedL;
  const weight = USUAL_ERROR_SHARE ** 2 / (USUAL_ERROR_SHARE ** 2 + errorShare ** 2);
  return 1 + weight * (Math.max(0, balance.ratio) - 1);
}
