import type { Day } from '../../shared/day.js';

/** Water that runs through a part on a day, on average, with the scatter between days and the number of days that both come from. */
export interface DailyLoad {
  /** m3, or m3 per m2 of membrane, as the points it belongs to */
  readonly mean: number;
  readonly sd: number;
  readonly days: number;
}

/** When a limit is met, as far as can be told. `metByDay` goes with DAYS_AHEAD; days are counted from `originDay`; `null` is later than the last of them. */
export interface LimitForecast {
  readonly metByDay: readonly number[];
  readonly shareBeyond: number;
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
}

/** One point of the forecast as it is drawn, in the unit of the value. Between `low` and `high` lie 8 in 10. */
export interface PathPoint {
  readonly dayAhead: number;
  readonly low: number;
  readonly mid: number;
  readonly high: number;
}

/** Why an outlook says what it says: one sentence for people, and what the sentence was made from. */
export interface OutlookReason {
  readonly text: string;
  readonly basis: 'signal' | 'earlier lives' | 'signal and earlier lives' | 'none';
  readonly firstValue: number | null;
  readonly lastValue: number | null;
  readonly limit: number;
}

export interface DataUsed {
  readonly firstDay: Day | null;
  readonly lastDay: Day | null;
  readonly points: number;
  readonly earlierLives: number;
  readonly dailyLoad: number;
  readonly dailyLoadDays: number;
  readonly loadUnit: 'm3' | 'm3/m2';
}

interface OutlookBase {
  readonly model: string;
  readonly modelVersion: string;
  /** Local date of the latest reading that the forecast knew */
  readonly originDay: Day;
  readonly reason: OutlookReason;
  readonly dataUsed: DataUsed;
}

/** A forecast of the day on which a limit is met, with how sure it is and why (`stretch`: by how much the record of earlier ones had its range widened); or why there is none. */
export type Outlook = OutlookBase &
  (
    | ({ readonly kind: 'outlook'; readonly path: readonly PathPoint[]; readonly stretch: number } & LimitForecast)
    | { readonly kind: 'limit-met'; readonly metOn: Day }
    | { readonly kind: 'too-little-data'; readonly have: string; readonly need: string }
  );
