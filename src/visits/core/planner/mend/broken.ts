/** What of a plan does not hold, and how the search is kept from it. */
export interface Broken {
  /** Visits that are taken out and put in again */
  readonly out: readonly number[];
  /** Their slots, over all nights away: with the work these go, too */
  readonly tour: readonly number[];
  readonly bans: readonly Ban[];
}

/** A visit does not begin in a slot, or in any, or not so soon, or not so late; in minutes without the break. */
export interface Ban {
  readonly visit: number;
  /** Null: in any */
  readonly slot: number | null;
  /** Left out, with `until`: not at all */
  readonly from?: number;
  readonly until?: number;
}
