/**
 * Probabilities of needing 0, 1, 2, ... pieces. They sum to 1; what lies beyond the last entry is counted in it. Pieces are whole: an item that is used by the
 * litre is counted in the smallest amount that is issued.
 */
export type Pmf = Float64Array;

/** Need that no plan and no outlook told of, per month, oldest first, the running month left out. What jobs with a due, a plan or an outlook took is not in it. */
export type MonthlyUse = readonly number[] | Float64Array;

/** Work with a day: a due, a job, an upkeep rule of the year ahead. */
export interface PlannedNeed {
  /** What the reasons name it by, of the caller's choosing: a job, a due */
  readonly cause: string;
  readonly quantity: number;
  /** Pieces of `quantity` that are reserved already: they are taken from what is free and never counted again */
  readonly reserved: number;
  /** Days from today; below 0 is overdue and counts as today */
  readonly inDays: number;
  /** By how many days work of this kind comes later, on average; 0 where the day is promised */
  readonly slipDays: number;
}

/** An outlook as it was stored, with what it takes to change the part. */
export interface FittedPart {
  readonly cause: string;
  /** Pieces of the item that one change takes */
  readonly quantity: number;
  /** Parts on the same water foul together: the name of the raw water, of the site or region; null where nothing is shared */
  readonly water: string | null;
  /** Days since the outlook's origin; the part was in place all that time */
  readonly ageDays: number;
  /** From the origin on */
  readonly stated: StatedOutlook;
  /** How long a new part lasts there, on average; null where unknown, then a second change within the horizon is not looked for */
  readonly nextLifeDays: number | null;
}

/** P10, P50 and P90 are null beyond the outlook's horizon. `metByDay` goes with `daysAhead`, both rising. */
export interface StatedOutlook {
  readonly p10Days: number | null;
  readonly p50Days: number | null;
  readonly p90Days: number | null;
  readonly daysAhead: readonly number[];
  readonly metByDay: readonly number[];
}

/** One past outlook and what came: of a part that is still in place, how long it has lasted since the origin. */
export interface PastOutlook {
  /** Outlooks of one week of one water are compared with each other */
  readonly week: number;
  readonly water: string | null;
  readonly p50Days: number;
  readonly p10Days: number | null;
  readonly p90Days: number | null;
  /** Days from the origin to the change, or to today */
  readonly lastedDays: number;
  /** The limit was met; else the part still runs, or was changed early */
  readonly met: boolean;
}

/** How far outlooks of a kind are from what comes: learnt from past ones, see `learnRecord`. */
export interface OutlookRecord {
  /** By bucket of the stated P50: `upToDays` is its end, the last has none */
  readonly buckets: readonly RecordBucket[];
  /** Correlation of errors of parts on the same water, and on different ones */
  readonly sameWater: number;
  readonly otherWater: number;
  /** Outlooks that were compared */
  readonly n: number;
  /** Median of actual over stated days of all of them, less 1: above 0 parts lasted longer than was said, below 0 shorter */
  readonly lasted: number;
}

export interface RecordBucket {
  readonly upToDays: number | null;
  /** ln(actual/stated P50): median and spread, already drawn to what is thought beforehand */
  readonly bias: number;
  readonly spread: number;
  readonly n: number;
}

/** Where the need of an item at a place comes from. Days count from today. */
export interface DemandSources {
  readonly use: MonthlyUse;
  readonly planned: readonly PlannedNeed[];
  readonly fitted: readonly FittedPart[];
}

/** How long what is decided today has to last: to the next review, and from then to the arrival of what is ordered then. */
export interface Protection {
  /** Probability of each number of days from 0 on */
  readonly leadTime: readonly number[];
  /** 0 under continuous review */
  readonly reviewDays: number;
}

export type NeedReason =
  | { readonly kind: 'planned'; readonly cause: string; readonly inDays: number; readonly expected: number }
  | { readonly kind: 'outlook'; readonly cause: string; readonly p50Days: number | null; readonly expected: number }
  | { readonly kind: 'unplanned'; readonly perMonth: number; readonly months: number; readonly expected: number };

/** The need until what is ordered at the next review arrives, as a distribution over the lead time as well. */
export interface Demand {
  readonly pmf: Pmf;
  readonly mean: number;
  /** Of which from plans, from outlooks, from the rest */
  readonly ofPlans: number;
  readonly ofOutlooks: number;
  readonly ofTheRest: number;
  /** What the need comes from, the largest first */
  readonly reasons: readonly NeedReason[];
  /** Days that this covers, on average */
  readonly daysCovered: number;
}
