import { IsInt, Max, Min } from 'class-validator';
import { IsDay, MayBeLeftOut, View } from '../../app/index.js';

export class PlanDto {
  /** Left out: tomorrow */
  @MayBeLeftOut()
  @IsDay()
  firstDay?: string;

  @MayBeLeftOut()
  @IsInt()
  @Min(1)
  @Max(56)
  days?: number;

  /** How long to search; 0: the first plan that keeps everything */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(20)
  seconds?: number;

  /** The same seed begins the search in the same way */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(1_000_000)
  seed?: number;
}

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

/** What one person does on one day. Times are of the local day; ways are estimated. */
export class PlanTourView extends View {
  readonly personId!: string;
  readonly personName!: string;
  readonly day!: string;
  /** Null: from home, or home */
  readonly startsNear!: string | null;
  readonly endsNear!: string | null;
  readonly leaveAt!: string;
  readonly backAt!: string;
  readonly stops!: PlanStopView[];
}

export class NotInPlanView extends View {
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  readonly siteId!: string;
  /** Why, and what to change */
  readonly reason!: string;
}

/** Tours in which every rule is kept; nothing of it is stored, and no visit is made or shifted. Whether parts are there is not looked at. */
export class PlanView extends View {
  readonly firstDay!: string;
  readonly days!: number;
  readonly seed!: number;
  readonly tours!: PlanTourView[];
  readonly notInPlan!: NotInPlanView[];
  /** People of whom planning knows neither home nor shifts */
  readonly peopleLeftOut!: string[];
}
