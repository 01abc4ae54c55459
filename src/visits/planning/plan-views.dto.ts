import { View } from '../../app/index.js';
import type { KindOfCost } from '../core/plan-facts/cost-by-kind.js';
import type { TravelSource } from '../core/travel/travel-table.js';
import type { PlanVerdict } from './stored-plan.js';

export class PlanStopView extends View {
  /** Of the job, due or visit */
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly arriveAt!: string;
  readonly startAt!: string;
  readonly endAt!: string;
}

/** What one person does on one day. Times are of the local day. */
export class PlanBreakView extends View {
  readonly from!: string;
  readonly until!: string;
}

export class PlanTourView extends View {
  readonly personId!: string;
  readonly personName!: string;
  readonly day!: string;
  /** Null: from home, or home */
  readonly startsNear!: string | null;
  readonly endsNear!: string | null;
  readonly leaveAt!: string;
  readonly backAt!: string;
  readonly breakAt!: PlanBreakView | null;
  /** What was promised leaves no room for the break that the person should have */
  readonly breakLeftOut!: boolean;
  readonly onCall!: boolean;
  readonly stops!: PlanStopView[];
}

export class NotInPlanView extends View {
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly urgent!: boolean;
  /** A visit that was promised and cannot be kept: it stands as it is until somebody shifts it */
  readonly promised!: boolean;
  /** Why, and what to change */
  readonly reason!: string;
}

export class PlanCostView extends View {
  readonly kind!: KindOfCost['kind'];
  /** What it counts as */
  readonly minutes!: number;
  /** The same in money; null: no rates were given */
  readonly money!: number | null;
  readonly count!: number;
}

export class PlanPersonView extends View {
  readonly personId!: string;
  readonly name!: string;
}

export class PlanWorkView extends View {
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  readonly minutes!: number;
}

/** A visit as the plan knew it */
export class PlanLineWasView extends View {
  readonly day!: string;
  readonly startAt!: string;
  readonly people!: PlanPersonView[];
}

export class PlanLineVanView extends View {
  /** Whose van it is */
  readonly name!: string;
  /** Among those of the line; else the parts must be handed over before */
  readonly goes!: boolean;
}

export class PlanOvertimeBeforeView extends View {
  readonly name!: string;
  readonly minutes!: number;
  /** Some of it from planned ends of visits, or without a known way home */
  readonly estimated!: boolean;
}

export class PlanLineWhyView extends View {
  /** The nearest of the latest days of its work, and of which work */
  readonly limitOn!: string | null;
  readonly limitOf!: string | null;
  /** What going a day later counts as, in minutes of work; null: not within the plan */
  readonly dayLaterMinutes!: number | null;
  /** Other sites of the same people on that day */
  readonly withSites!: string[];
  /** Why it is not shifted; null: it may be */
  readonly kept!: 'promised' | 'agreed' | null;
  /** Urgent work that comes before there is time for the notice that the site wants */
  readonly shortNotice!: boolean;
  /** Of its new work, one piece after another */
  readonly waterOffMinutes!: number;
  /** Other work that is done before it */
  readonly after!: string[];
  /** Vans that its parts are taken from */
  readonly vans!: PlanLineVanView[];
  /** What those who go have of overtime in that week before the plan begins, as far as it has a limit */
  readonly overtimeBefore!: PlanOvertimeBeforeView[];
}

export class PlanLineAcceptedView extends View {
  readonly at!: Date;
  readonly by!: string;
}

/** A visit to make, or one that is there. Times are of the day at the site. */
export class PlanLineView extends View {
  readonly id!: string;
  /** new: accepting it makes a visit; shift: it shifts the visit; stays: the visit is there, and nothing is to be accepted */
  readonly change!: 'new' | 'stays' | 'shift';
  /** Of a line that was accepted, the visit that was made */
  readonly visitId!: string | null;
  readonly visitNo!: number | null;
  readonly promised!: boolean;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly day!: string;
  readonly startAt!: string;
  readonly endAt!: string;
  /** Of the way there */
  readonly travelMinutes!: number;
  readonly travelSource!: TravelSource;
  readonly travelIsEstimated!: boolean;
  readonly workMinutes!: number;
  readonly people!: PlanPersonView[];
  readonly work!: PlanWorkView[];
  /** Of a line that shifts a visit, where it was */
  readonly was!: PlanLineWasView | null;
  /** Why it is there, in sentences */
  readonly reason!: string;
  readonly why!: PlanLineWhyView;
  readonly accepted!: PlanLineAcceptedView | null;
}

export class PlanHeadView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly madeAt!: Date;
  readonly madeBy!: string;
  readonly firstDay!: string;
  readonly days!: number;
  /** whole: everything is in it; promise not kept: what was promised cannot be done so */
  readonly verdict!: PlanVerdict;
  /** The number of the plan that it replaces, and of the one that replaced it */
  readonly replacesNo!: number | null;
  readonly replacedByNo!: number | null;
  readonly lines!: number;
  /** Lines that make or shift a visit, and how many of them were accepted */
  readonly toAccept!: number;
  readonly accepted!: number;
  readonly leftOut!: number;
}

export class PlansPageView extends View {
  readonly items!: PlanHeadView[];
  readonly next!: string | null;
}

export class PlaceInPlanView extends View {
  readonly day!: string;
  readonly startAt!: string;
  readonly people!: PlanPersonView[];
}

/** What became of a piece of work against the version that was replaced */
export class PlanChangeView extends View {
  /** Of the job, due or visit */
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  /** promise not kept: the visit stands as it is, and somebody must decide; gone: no longer to be planned */
  readonly what!: 'new' | 'moved' | 'other time' | 'left out' | 'promise not kept' | 'gone' | 'unchanged';
  readonly from!: PlaceInPlanView | null;
  readonly to!: PlaceInPlanView | null;
  readonly why!: string;
}

/** Tours in which every rule is kept. No visit is made or shifted until lines are accepted. */
export class PlanView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly madeAt!: Date;
  readonly madeBy!: string;
  readonly firstDay!: string;
  readonly days!: number;
  readonly seed!: number;
  readonly seconds!: number;
  readonly keepHours!: number;
  readonly verdict!: PlanVerdict;
  readonly replacesId!: string | null;
  readonly replacesNo!: number | null;
  readonly replacedById!: string | null;
  readonly replacedByNo!: number | null;
  /** By kind, in minutes of work and in money */
  readonly costs!: PlanCostView[];
  /** ISO 4217, of the rates by which it was searched; null: none were given, and costs count in hours */
  readonly currency!: string | null;
  readonly lines!: PlanLineView[];
  readonly tours!: PlanTourView[];
  readonly notInPlan!: NotInPlanView[];
  /** Against the version that it replaces; none where it replaces none */
  readonly changes!: PlanChangeView[];
  /** People of whom planning knows neither home nor shifts */
  readonly peopleLeftOut!: string[];
  /** Why ways are estimated that should not be; null: none is */
  readonly travelSaid!: string | null;
}
