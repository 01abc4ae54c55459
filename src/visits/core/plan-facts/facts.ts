import type { Day } from '../../../shared/day.js';
import type { TaskTime } from '../visit-minutes.js';
import type { AccessFacts } from './access-of-site.js';
import type { Position } from './estimated-way.js';
import type { VisitBefore } from './overtime-before.js';
import type { PartsInVan } from './parts-ready.js';
import type { PlanRates } from './plan-prices.js';

/** The first and the last day. */
export interface DaySpan {
  readonly from: Day;
  readonly until: Day;
}

/** Somebody who can be sent, as managers entered it. */
export interface PersonFacts extends Position {
  readonly id: string;
  readonly name: string;
  /** 1 Monday to 7 Sunday */
  readonly workDays: readonly number[];
  readonly shiftFrom: string;
  readonly regularUntil: string;
  readonly shiftUntil: string;
  readonly mostNights: number;
  readonly skills: readonly { readonly skill: string; readonly lastOn: Day | null }[];
  readonly daysOff: readonly DaySpan[];
  /** Least hours between coming home, or to where the night is spent, and leaving on the next day; null, or left out: none is asked for */
  readonly restHours?: number | null;
  /** Monday to Sunday; null, or left out: as much as the shifts have */
  readonly overtimeHoursAWeek?: number | null;
  /** Within a day; null, or left out: none is planned */
  readonly breakRule?: { readonly minutes: number; readonly from: string; readonly until: string } | null;
  /** Left out: never */
  readonly onCall?: readonly DaySpan[];
}

export interface SiteFacts extends Position, AccessFacts {
  readonly id: string;
  readonly name: string;
  readonly extraMinutes: number;
  readonly mayWorkAlone: boolean;
  /** Days between asking the site and coming there; left out: none */
  readonly noticeDays?: number;
  /** What everybody who enters must hold, named as skills are; left out: nothing */
  readonly inductions?: readonly string[];
}

/** A job that is to be done before other work, and is not done. */
export interface JobBefore {
  readonly id: string;
  readonly no: number;
  /** Null: it is in none to come */
  readonly visit: { readonly id: string; readonly onDay: Day } | null;
  /** For a part, an answer or a decision */
  readonly waits: boolean;
}

/** A job that waits for a visit, or a due. */
export interface WorkFacts {
  readonly kind: 'job' | 'due';
  readonly id: string;
  readonly siteId: string;
  readonly text: string;
  readonly urgent: boolean;
  readonly earliestOn: Day | null;
  readonly bestOn: Day | null;
  readonly latestOn: Day | null;
  /** Its parts are there from then on; null: they are there, or it takes none */
  readonly partsFromOn: Day | null;
  /** Vans that some of its parts are taken from, whose people may have all of them sooner than others; left out: none */
  readonly partsInVans?: readonly PartsInVan[] | undefined;
  /** What is neither there nor on its way; left out: nothing */
  readonly partsMissing?: string | undefined;
  /** What doing it on each day of the plan costs more than on the cheapest day, in the currency of the rates; left out: not known */
  readonly waiting?: readonly number[] | undefined;
  /** Left out: none */
  readonly after?: readonly JobBefore[] | undefined;
  /** In which the skid filters nothing, by its sheets; left out: none */
  readonly waterOffMinutes?: number;
  readonly tasks: readonly (TaskTime & { readonly skills: readonly string[] })[];
}

/** A visit that somebody has planned. */
export interface VisitFacts {
  readonly id: string;
  readonly siteId: string;
  readonly text: string;
  readonly onDay: Day;
  readonly startTime: string;
  readonly minutes: number;
  readonly personIds: readonly string[];
  /** Of its work */
  readonly skills: readonly string[];
  readonly earliestOn: Day | null;
  readonly latestOn: Day | null;
  /** Its parts are there from then on; null: they are there, or it takes none */
  readonly partsFromOn: Day | null;
  /** Of its jobs, but those in the visit itself; left out: none */
  readonly after?: readonly JobBefore[] | undefined;
  readonly promised: boolean;
  /** It keeps its day, time and people: promised, begun, or too soon to shift it */
  readonly stays: boolean;
}

/** A piece of work of the input: to be put somewhere, or a visit that is there. */
export type PlacedFacts = WorkFacts | (VisitFacts & { readonly kind: 'visit' });

/** A piece of work by its kind and id. */
export const workKey = ({ kind, id }: { readonly kind: string; readonly id: string }): string => `${kind} ${id}`;

export interface PlanFacts {
  readonly firstDay: Day;
  readonly days: number;
  /** When notice can be given; left out: on the first day of the plan */
  readonly today?: Day;
  readonly people: readonly PersonFacts[];
  readonly sites: readonly SiteFacts[];
  readonly work: readonly WorkFacts[];
  readonly visits: readonly VisitFacts[];
  /** Of the week of the first day, before it; left out: none */
  readonly visitsBefore?: readonly VisitBefore[];
  /** Between the homes of the people in their order, then the sites in theirs, as by `waysForPlan`; left out: estimated by distance on usual roads */
  readonly travel?: { readonly minutes: Float64Array; readonly km: Float64Array; readonly sources?: Uint8Array };
  /** Null, or left out: costs count in hours */
  readonly rates?: PlanRates | null;
  /** Where an earlier plan had work, by `workKey`: put elsewhere only where that is worth more than the change */
  readonly earlier?: ReadonlyMap<string, { readonly personIds: readonly string[]; readonly onDay: Day }>;
}
