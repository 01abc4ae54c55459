import type { Span } from './plan-input.js';

/**
 * What is to be planned, in numbers: visits (0, 1, 2, ...) that are put into slots (0, 1, 2, ...). A slot is what one technician may drive in one go, mostly a day that
 * begins and ends at home. Times are minutes from the beginning of the slot's day, costs are of one unit throughout.
 */
export interface RoutingProblem {
  readonly visits: VisitTable;
  readonly slots: SlotTable;
  readonly options: OptionTable;
  readonly travel: TravelTable;
  /** Cost of a minute between leaving home and coming back, waiting included */
  readonly minuteCost: number;
  /** Cost of a minute after the regular end of a slot, on top */
  readonly overtimeMinuteCost: number;
  /** What has to be carried along; null: nothing */
  readonly carried: CarriedTable | null;
  /** Nights away from home; null: every day ends at home */
  readonly nights: NightTable | null;
}

export interface VisitTable {
  readonly count: number;
  /** Place in the table of travel */
  readonly node: Int32Array;
  readonly serviceMinutes: Float64Array;
  /** What it costs to leave the visit out */
  readonly unassignedCost: Float64Array;
  /** 1: stays where the first plan has it */
  readonly locked: Uint8Array;
  /** Of work for two people, the visit of the second one, which begins with the first; -1: one person is enough */
  readonly second: Int32Array;
}

export interface SlotTable {
  readonly count: number;
  readonly startNode: Int32Array;
  readonly endNode: Int32Array;
  /** Not to leave before */
  readonly from: Float64Array;
  /** Back by */
  readonly until: Float64Array;
  /** After it begins overtime */
  readonly regularUntil: Float64Array;
  /** Once, where anything at all is in the slot */
  readonly fixedCost: Float64Array;
  /** Work of two people is done on one day */
  readonly day: Int32Array;
  /** Slots of the same number are alike: of those that are empty one is tried */
  readonly alike: Int32Array;
  /** Breaks by the clock of the day: all other times of a slot are without its break, so that only what ties slots to each other needs them; left out: none */
  readonly pauses?: readonly (Span | null)[];
}

/** Where a visit may go: for visit v the entries `offset[v]` to `offset[v + 1]`, the cheapest first. A second window on the same day is a second entry. */
export interface OptionTable {
  readonly offset: Int32Array;
  readonly slot: Int32Array | Uint16Array;
  /** Work may begin from ... */
  readonly from: Numbers;
  /** ... until */
  readonly until: Numbers;
  /** Of doing it in this slot: too early, too late, other than published */
  readonly cost: Numbers;
}

export type Numbers = Float64Array | Float32Array;

export interface TravelTable {
  readonly nodes: number;
  /** From row to column */
  readonly minutes: Float64Array;
  /** Beyond that of the minutes; null: none */
  readonly cost: Float64Array | null;
}

/** What a way costs beyond its minutes. */
export const costOfWay = ({ cost }: TravelTable, way: number): number => (cost === null ? 0 : (cost[way] as number));

/** Amounts of several kinds, and tools as bits. A stop at the store, where there is one, takes everything aboard that is needed after it. */
export interface CarriedTable {
  readonly kinds: number;
  readonly need: Float64Array;
  readonly needTools: Int32Array;
  readonly aboard: Float64Array;
  readonly aboardTools: Int32Array;
  readonly store: { readonly node: number; readonly minutes: number } | null;
}

/** A day may end near a place of work and the next one begin there, where the slots are days that follow each other. */
export interface NightTable {
  /** The slot of the same person on the day before, or after; -1: none that is worked */
  readonly before: Int32Array;
  readonly after: Int32Array;
  /** In a row, of whoever the slot belongs to */
  readonly most: Int32Array;
  readonly cost: Float64Array;
  /** 1: so far from everybody that a night away may be worth it */
  readonly far: Uint8Array;
}

/** Sequences of visits by slot; `store` is where in the sequence the stop at the store lies, -1 without one. */
export interface RoutePlan {
  readonly routes: readonly (readonly number[])[];
  readonly options: readonly (readonly number[])[];
  /** The start that work of two people has agreed on; NaN elsewhere */
  readonly agreed: readonly (readonly number[])[];
  /** When work begins at the earliest, for each visit of each slot */
  readonly starts: readonly (readonly number[])[];
  readonly storeAt: readonly number[];
  /** Where each slot begins and ends: home, or where the night is spent */
  readonly startNode: readonly number[];
  readonly endNode: readonly number[];
  readonly unassigned: readonly number[];
  readonly cost: number;
}

/** Where a search begins: what a plan says of its slots. */
export type FirstPlan = Pick<RoutePlan, 'options' | 'agreed' | 'startNode' | 'endNode'>;
