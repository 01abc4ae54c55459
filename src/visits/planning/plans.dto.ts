import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, ArrayUnique, IsArray, IsInt, IsUUID, Max, Min, ValidateNested } from 'class-validator';
import { IsDay, MayBeLeftOut } from '../../app/index.js';

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

  /** Visits that begin within so many hours stay where they are, also where the client was told nothing yet; left out: 24 */
  @MayBeLeftOut()
  @IsInt()
  @Min(0)
  @Max(1344)
  keepHours?: number;
}

export class AbsenceDto {
  @IsUUID()
  personId!: string;

  @IsDay()
  from!: string;

  /** The last day */
  @IsDay()
  until!: string;
}

export class LongWorkDto {
  /** Of a job, due or visit */
  @IsUUID()
  id!: string;

  /** What it takes with its crew */
  @IsInt()
  @Min(1)
  @Max(1440)
  minutes!: number;
}

export class LatePartsDto {
  /** Of a job, due or visit */
  @IsUUID()
  id!: string;

  /** The first day on which its parts are there */
  @IsDay()
  from!: string;
}

/** What has become known since. Days that are left out: from today, or the first day of the plan where that is later, to its last day */
export class ReplanDto extends PlanDto {
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => AbsenceDto)
  absences?: AbsenceDto[];

  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => LongWorkDto)
  longWork?: LongWorkDto[];

  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => LatePartsDto)
  lateParts?: LatePartsDto[];

  /** Jobs or dues that come before all that is not promised; breakdowns that are a danger or cost the water are urgent anyway */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  urgentIds?: string[];
}

export class AcceptPlanDto {
  /** Lines that make or shift a visit; left out: all that were not accepted yet */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  lineIds?: string[];
}
