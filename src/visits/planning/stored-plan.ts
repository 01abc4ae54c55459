import type { KindOfCost } from '../core/plan-facts/cost-by-kind.js';
import type { WhyOfLine } from '../core/plan-facts/line-reason.js';
import type { TravelSource } from '../core/travel/travel-table.js';

/** What of a plan is kept as it was said, in columns without a structure of their own. */
export interface StoredPerson {
  readonly personId: string;
  readonly name: string;
}

export interface StoredWork {
  readonly id: string;
  readonly kind: 'job' | 'due' | 'visit';
  readonly text: string;
  readonly minutes: number;
}

export interface StoredWas {
  readonly day: string;
  readonly startAt: string;
  readonly people: readonly StoredPerson[];
}

export interface StoredWhy extends WhyOfLine {
  readonly travelSource: TravelSource;
}

export interface StoredStop {
  readonly id: string;
  readonly kind: 'job' | 'due' | 'visit';
  readonly text: string;
  readonly siteId: string;
  readonly siteName: string;
  readonly arriveAt: string;
  readonly startAt: string;
  readonly endAt: string;
}

export interface StoredCost extends KindOfCost {
  /** Null: no rates were given */
  readonly money: number | null;
}

export interface StoredTour {
  readonly personId: string;
  readonly personName: string;
  readonly day: string;
  readonly startsNear: string | null;
  readonly endsNear: string | null;
  readonly leaveAt: string;
  readonly backAt: string;
  /** Null: none; both unset in plans that knew of no breaks */
  readonly breakAt?: { readonly from: string; readonly until: string } | null;
  readonly breakLeftOut?: boolean;
  /** Unset in plans that knew of nobody on call */
  readonly onCall?: boolean;
  readonly stops: readonly StoredStop[];
}

export type PlanVerdict = 'whole' | 'work left out' | 'promise not kept';
