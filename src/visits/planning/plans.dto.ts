import { ArrayMaxSize, ArrayMinSize, ArrayUnique, IsArray, IsInt, IsUUID, Max, Min } from 'class-validator';
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
