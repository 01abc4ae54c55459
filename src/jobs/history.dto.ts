import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsNumber, IsOptional, IsString, IsUUID, Length, ValidateNested } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { FAILURE_MECHANISM_CODES, FAILURE_MODES, type FailureMechanism, type FailureMode } from '../shared/failure-terms.js';
import { JOB_KINDS, type JobKind, SEVERITIES, type Severity } from '../shared/work.js';

export class OldFailureDto {
  @IsIn(SEVERITIES)
  severity!: Severity;

  /** A day, or a moment with its offset */
  @IsOptional()
  @IsString()
  @Length(1, 40)
  downFrom: string | null = null;

  @IsOptional()
  @IsString()
  @Length(1, 40)
  restoredAt: string | null = null;

  @IsOptional()
  @IsIn(FAILURE_MODES)
  failureMode: FailureMode | null = null;

  @IsOptional()
  @IsIn(FAILURE_MECHANISM_CODES)
  mechanism: FailureMechanism | null = null;

  @IsText(2000)
  cause: string = '';

  @IsText(2000)
  remedy: string = '';
}

/** One line of an old record of work. Costs are not kept. */
export class OldWorkDto {
  /** A day, or a moment with its offset */
  @IsString()
  @Length(1, 40)
  at!: string;

  @IsName(160)
  title!: string;

  @IsIn(JOB_KINDS)
  kind!: JobKind;

  @IsOptional()
  @IsUUID()
  positionId: string | null = null;

  @IsOptional()
  @IsNumber()
  minutes: number | null = null;

  /** Who did it, where that is known */
  @MayBeLeftOut()
  @IsName(200)
  by?: string;

  @IsText(1000)
  note: string = '';

  /** Of a breakdown, and only of it */
  @IsOptional()
  @ValidateNested()
  @Type(() => OldFailureDto)
  failure: OldFailureDto | null = null;
}

export class HistoryDto {
  @IsUUID()
  skidId!: string;

  /** Check only, and say what would be made */
  @IsBoolean()
  dryRun: boolean = false;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(2000)
  @ValidateNested({ each: true })
  @Type(() => OldWorkDto)
  rows!: OldWorkDto[];
}

export class HistoryProblemView extends View {
  /** From 1 */
  readonly row!: number;
  readonly pointer!: string;
  readonly message!: string;
}

export class HistoryView extends View {
  readonly dryRun!: boolean;
  readonly rows!: number;
  /** Jobs that were made, or would be */
  readonly made!: number;
  /** Of the same day and title as one that is there */
  readonly known!: number;
  readonly problems!: HistoryProblemView[];
}
