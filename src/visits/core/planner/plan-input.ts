/** What a plan is made from. Days are numbered from 0, the first day of the plan; times are minutes of the local day; money is of one currency. */
export interface PlanInput {
  readonly days: number;
  readonly people: readonly PersonToPlan[];
  readonly sites: readonly SiteToPlan[];
  readonly work: readonly WorkToPlan[];
  /** Between places: homes of the people in their order, then the sites in theirs */
  readonly travel: { readonly minutes: Float64Array; readonly km: Float64Array };
  readonly prices: PlanPrices;
}

export interface PlanPrices {
  /** Between leaving home and coming back, whatever it is spent on */
  readonly minute: number;
  /** On top of the minute, each */
  readonly travelMinute: number;
  readonly workMinute: number;
  readonly overtimeMinute: number;
  readonly km: number;
  /** Of moving work that was published on another day or with other people */
  readonly change: number;
  /** Of sending somebody who is not on call to urgent work while somebody able is; left out: nothing */
  readonly notOnCall?: number;
}

export interface Span {
  readonly from: number;
  readonly until: number;
}

export interface PersonToPlan {
  readonly name: string;
  /** Of each day; null: does not work */
  readonly shifts: readonly (Shift | null)[];
  /** What they can do, and the last day on which they may; null: without end */
  readonly skills: ReadonlyMap<string, number | null>;
  /** Nights away from home in a row */
  readonly mostNights: number;
  readonly nightCost: number;
  /** Least minutes between coming back and leaving on the next day; left out: none is asked for */
  readonly restMinutes?: number | undefined;
  /** At most, of the days of the plan that have the same number of the week, with what was had `before` in the first; left out: as much as the shifts have */
  readonly overtime?: { readonly minutes: number; readonly weekOf: readonly number[]; readonly before?: number } | undefined;
  /** Of each day: urgent work is theirs before others', and the night is spent at home; left out: never */
  readonly onCall?: readonly boolean[] | undefined;
  /** On days that are out of home in the time for it; left out: none is asked for */
  readonly breakRule?: BreakRule | undefined;
}

/** A break of so many minutes, not begun before and over by then. */
export interface BreakRule extends Span {
  readonly minutes: number;
}

export interface Shift extends Span {
  /** From then on it is overtime */
  readonly regularUntil: number;
  /** When the day could end but for the rest before the next one, or for the limit of overtime; left out: no later than it does */
  readonly uncut?: { readonly until: number; readonly by: 'rest' | 'overtime' };
}

export interface SiteToPlan {
  readonly name: string;
  /** When people are let in, of each day */
  readonly open: readonly (readonly Span[])[];
  /** Of each day, whether the road is open in that month; left out: all year */
  readonly inSeason?: readonly boolean[] | undefined;
  /** It is reached by boat, which goes then; left out: by road */
  readonly ferry?: Ferry;
}

/** The same on every day, in minutes of the day. A way to the site is told as if the boat went at once. */
export interface Ferry {
  /** At the site */
  readonly landings: readonly number[];
  /** From the site */
  readonly departures: readonly number[];
}

export interface WorkToPlan {
  readonly name: string;
  readonly site: number;
  readonly minutes: number;
  readonly skills: readonly string[];
  readonly people: 1 | 2;
  /** What everybody who enters the site must hold; left out: nothing */
  readonly entry?: readonly string[];
  /** The first day for which there is time to give the site its notice; urgent work and what was planned for an earlier day may come before. Left out: none is wanted */
  readonly noticeFrom?: number | undefined;
  /** What doing it on each day costs more than on the best day; infinite: not on that day */
  readonly dayCost: Float64Array;
  /** Numbers of the work that is to be done before; left out: none */
  readonly after?: readonly number[];
  /** Left out: it is not */
  readonly urgent?: boolean;
  /** What leaving it out of the plan counts as */
  readonly unassignedCost: number;
  /** The first day on which its parts can be in the van of anybody; null: never within the plan */
  readonly partsFrom: number | null;
  /** Of people who have them sooner, in their own vans, by the number of the person; of two people it is enough that one has them. Left out: nobody has */
  readonly partsSooner?: ReadonlyMap<number, number> | undefined;
  /** Promised: with these people on this day, begun then */
  readonly promised: Appointment | null;
  /** As it was published; where the time was, another one on the same day is a change too */
  readonly published: { readonly people: readonly number[]; readonly day: number; readonly start?: number } | null;
}

export interface Appointment {
  readonly people: readonly number[];
  readonly day: number;
  readonly start: number;
}

/** A plan, tour by tour. */
export interface VisitPlan {
  readonly tours: readonly DayTour[];
  readonly leftOut: readonly number[];
  readonly cost: number;
}

/** What one person does on one day. */
export interface DayTour {
  readonly person: number;
  readonly day: number;
  /** Place of the travel table where the day begins and ends: home, or where the night is spent */
  readonly startPlace: number;
  readonly endPlace: number;
  readonly leave: number;
  readonly back: number;
  /** Work and ways that it interrupts go on afterwards; null: none is asked for, the tour leaves time for it at home, or what was promised leaves no room */
  readonly pause: Span | null;
  readonly stops: readonly TourStop[];
}

export interface TourStop {
  readonly work: number;
  readonly arrive: number;
  readonly start: number;
  readonly end: number;
}
