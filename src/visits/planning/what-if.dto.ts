import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayUnique, IsArray, IsInt, IsString, IsUUID, Length, Max, Min, ValidateNested } from 'class-validator';
import { IsDay, MayBeLeftOut, View } from '../../app/index.js';
import type { KindOfCost } from '../core/plan-facts/cost-by-kind.js';
import type { PlaceInPlanView, PlanCostView } from './plan-views.dto.js';
import { PlanDto } from './plans.dto.js';
import type { PlanVerdict } from './stored-plan.js';

export class OneMoreDto {
  /** Whose home and shifts they would have */
  @IsUUID()
  likePersonId!: string;

  /** As task sheets name them */
  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique()
  @IsString({ each: true })
  @Length(1, 200, { each: true })
  skills!: string[];
}

export class NotBeforeDto {
  /** Of a job, due or visit */
  @IsUUID()
  id!: string;

  /** The first day on which it may be done */
  @IsDay()
  from!: string;
}

/** One of these, or several */
export class WhatIfDto extends PlanDto {
  @MayBeLeftOut()
  @ValidateNested()
  @Type(() => OneMoreDto)
  oneMore?: OneMoreDto;

  /** Nothing that may be shifted is done in the first days; the plan is longer by as many */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(28)
  laterDays?: number;

  /** The plan is long enough for a week from each of these days on */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => NotBeforeDto)
  notBefore?: NotBeforeDto[];
}

export class WhatIfPlanView extends View {
  readonly verdict!: PlanVerdict;
  readonly costs!: PlanCostView[];
  readonly leftOut!: number;
}

export class WhatIfCostView extends View {
  readonly kind!: KindOfCost['kind'];
  /** More than now; less where negative */
  readonly minutes!: number;
}

export class WhatIfWorkView extends View {
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  /** Why it is left out in the plan in which it is */
  readonly reason!: string;
}

/** Work that was asked to be done later, in both plans */
export class WhatIfLaterView extends View {
  readonly id!: string;
  readonly kind!: 'job' | 'due' | 'visit';
  readonly text!: string;
  /** Null: left out */
  readonly now!: PlaceInPlanView | null;
  readonly otherwise!: PlaceInPlanView | null;
}

/** Two plans of the same work beside each other, as things are and as they would be. Neither is kept */
export class WhatIfView extends View {
  readonly firstDay!: string;
  readonly days!: number;
  /** ISO 4217, of the rates by which both were searched; null: none were given, and costs count in hours */
  readonly currency!: string | null;
  readonly now!: WhatIfPlanView;
  readonly otherwise!: WhatIfPlanView;
  readonly differences!: WhatIfCostView[];
  /** Left out now, and placed otherwise */
  readonly placedOtherwise!: WhatIfWorkView[];
  /** Placed now, and left out otherwise */
  readonly leftOutOtherwise!: WhatIfWorkView[];
  /** As many as `notBefore` named */
  readonly later!: WhatIfLaterView[];
}
