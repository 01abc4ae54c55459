import { IsBoolean, IsIn, IsNumber, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsMoment, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../app/index.js';
import { FAILURE_MECHANISM_CODES, FAILURE_MODES, type FailureMechanism, type FailureMode } from '../shared/failure-terms.js';
import { type JobKind, type JobState, SEVERITIES, type Severity } from '../shared/work.js';

/** What is wrong or wanted, in the words of whoever asks. */
export class AskDto {
  @IsUUID()
  skidId!: string;

  @IsName(160)
  title!: string;

  @IsText(4000)
  request!: string;

  /** Missing: now */
  @MayBeLeftOut()
  @IsMoment()
  noticedAt?: string;

  /** When the skid stopped giving water; missing: it did not, or nobody knows */
  @MayBeLeftOut()
  @IsMoment()
  downFrom?: string;

  @IsOptional()
  @IsUUID()
  positionId?: string | null;
}

export class BreakdownDto extends AskDto {
  @IsIn(SEVERITIES)
  severity!: Severity;
}

/** What was asked for, as it is now kept. Photographs are sent as attachments of kind `job` with its id. */
export class AskedView extends View {
  readonly jobId!: string;
  readonly no!: number;
  readonly version!: number;
  readonly kind!: JobKind;
  readonly state!: JobState;
  readonly skidId!: string;
  readonly title!: string;
  /** Of a breakdown */
  readonly severity!: Severity | null;
}

export class TakeDto {
  /** Take it over from whoever has it */
  @IsBoolean()
  takeOver: boolean = false;
}

/** What was found out of a failure. */
class FailureDto {
  @IsOptional()
  @IsMoment()
  restoredAt?: string | null;

  @IsOptional()
  @IsIn(FAILURE_MODES)
  failureMode?: FailureMode | null;

  /** Code of the mechanism in ISO 14224 */
  @IsOptional()
  @IsIn(FAILURE_MECHANISM_CODES)
  mechanism?: FailureMechanism | null;

  @MayBeLeftOut()
  @IsText(2000)
  cause?: string;
}

export class TelephoneDto extends FailureDto {
  /** What was said and done */
  @IsName(2000)
  note!: string;

  /** It is over: nobody needs to go there */
  @IsBoolean()
  ended!: boolean;
}

export class BreakdownEditDto extends FailureDto {
  @MayBeLeftOut()
  @IsIn(SEVERITIES)
  severity?: Severity;

  @IsOptional()
  @IsMoment()
  downFrom?: string | null;

  /** Work of the repair alone */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(60_000)
  repairMinutes?: number | null;

  @MayBeLeftOut()
  @IsText(2000)
  remedy?: string;
}

export class BreakdownQuery extends PageQuery {
  /** Only those whose job is neither finished nor dropped, or only the others */
  @IsOptional()
  @IsIn(['true', 'false'])
  open?: 'true' | 'false';

  @IsOptional()
  @IsIn(SEVERITIES)
  severity?: Severity;

  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;
}

export class BreakdownView extends View {
  readonly jobId!: string;
  readonly no!: number;
  readonly version!: number;
  readonly state!: JobState;
  readonly title!: string;
  readonly request!: string;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  readonly severity!: Severity;
  /** client, technician, staff, readings */
  readonly source!: string;
  readonly noticedAt!: Date;
  readonly downFrom!: Date | null;
  readonly restoredAt!: Date | null;
  /** From the stop to the restoration, where both are known */
  readonly downMinutes!: number | null;
  /** The down time in words */
  readonly downTime!: string;
  readonly repairMinutes!: number | null;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly takenBy!: string | null;
  readonly takenAt!: Date | null;
  /** Help by telephone, a line each time */
  readonly telephone!: string;
  /** telephone, visit, itself */
  readonly endedBy!: string | null;
  readonly failureMode!: string | null;
  /** Code in ISO 14224 */
  readonly mechanism!: string | null;
  readonly mechanismInWords!: string;
  readonly cause!: string;
  readonly remedy!: string;
  readonly createdAt!: Date;
  readonly createdBy!: string;
  readonly finishedAt!: Date | null;
  /** Day of the visit that it is in */
  readonly visitOn!: string | null;
}

export class BreakdownPageView extends View {
  readonly items!: BreakdownView[];
  readonly next!: string | null;
  /** All that match */
  readonly total!: number;
}
