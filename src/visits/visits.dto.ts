import { ArrayMaxSize, ArrayMinSize, ArrayUnique, IsArray, IsIn, IsInt, IsOptional, IsUUID, Matches, Max, Min } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, PageQuery } from '../app/index.js';
import { VISIT_STATES, type VisitState } from '../shared/work.js';

const TIME = /^([01]\d|2[0-3]):[0-5]\d$/;
const TIME_MESSAGE = { message: 'startTime must be a time of the day at the site, from 00:00 to 23:59, such as 08:30' };
const LONGEST_MINUTES = 14 * 24 * 60;

export class VisitJobsDto {
  /** Jobs of the site that wait to be planned */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  jobIds?: string[];

  /** From the due list: a job is made for each skid, with a task for each due */
  @MayBeLeftOut()
  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  dueIds?: string[];
}

export class VisitDto extends VisitJobsDto {
  @IsUUID()
  siteId!: string;

  /** The day at the site. One that has passed records a visit after the fact */
  @IsDay()
  onDay!: string;

  /** At the site, such as 08:30 */
  @Matches(TIME, TIME_MESSAGE)
  startTime!: string;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(10)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  personIds!: string[];

  /** Left out: reckoned from the usual time of its tasks */
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(LONGEST_MINUTES)
  minutes?: number | null;

  /** For the department */
  @MayBeLeftOut()
  @IsText()
  note?: string;

  @MayBeLeftOut()
  @IsText()
  noteToClient?: string;
}

/** What changes; what is left out stays. */
export class VisitEditDto {
  @MayBeLeftOut()
  @IsDay()
  onDay?: string;

  @MayBeLeftOut()
  @Matches(TIME, TIME_MESSAGE)
  startTime?: string;

  @MayBeLeftOut()
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(10)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  personIds?: string[];

  /** Null: reckoned from its tasks again */
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(LONGEST_MINUTES)
  minutes?: number | null;

  @MayBeLeftOut()
  @IsText()
  note?: string;

  @MayBeLeftOut()
  @IsText()
  noteToClient?: string;

  /** Why a visit that was promised is shifted: the client reads it */
  @MayBeLeftOut()
  @IsName(500)
  tellClient?: string;
}

export class CallOffDto {
  /** Why. Where it was promised, the client reads it */
  @IsName(500)
  reason!: string;
}

export class VisitsQuery extends PageQuery {
  /** First day, at the sites */
  @IsOptional()
  @IsDay()
  from?: string;

  /** Last day, at the sites */
  @IsOptional()
  @IsDay()
  to?: string;

  @IsOptional()
  @IsUUID()
  personId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsIn(VISIT_STATES)
  state?: VisitState;
}
