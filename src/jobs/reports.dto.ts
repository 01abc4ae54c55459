import { Type } from 'class-transformer';
import {
  ArrayMaxSize,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsNumber,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Length,
  Matches,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { FAILURE_MECHANISM_CODES, FAILURE_MODES, type FailureMechanism, type FailureMode } from '../shared/failure-terms.js';
import { SERVICE_STATES, type ServiceState } from '../shared/service-states.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { UNITS, type UnitCode } from '../shared/units.js';
import { type JobState, SEVERITIES, type Severity } from '../shared/work.js';
import { ReportProblemView } from './jobs.dto.js';

/** A list of records, each checked. */
function IsListOf(kind: new () => object, most: number): PropertyDecorator {
  return (target, key) => {
    for (const decorate of [IsArray(), ArrayMaxSize(most), IsObject({ each: true }), ValidateNested({ each: true }), Type(() => kind)]) decorate(target, key);
  };
}

const IsQuantity = () =>
  Matches(/^(?!0+(\.0+)?$)\d{1,9}(\.\d{1,6})?$/, { message: '$property must be a decimal number above 0, as text, such as "2" or "0.5"' });
const IsAttachmentList = (most: number): PropertyDecorator => {
  return (target, key) => {
    for (const decorate of [IsArray(), ArrayMaxSize(most), IsUUID(undefined, { each: true })]) decorate(target, key);
  };
};

export class StepReportDto {
  @IsInt()
  @Min(1)
  @Max(200)
  no!: number;

  @IsIn(['done', 'skipped'])
  outcome!: 'done' | 'skipped';

  @IsOptional()
  @IsNumber()
  value?: number | null;

  @IsOptional()
  @IsString()
  @Length(1, 20)
  unit?: string | null;

  /** The answer to a check */
  @IsOptional()
  @IsBoolean()
  yes?: boolean | null;

  /** Why it was left out */
  @MayBeLeftOut()
  @IsText(500)
  why?: string;

  @IsAttachmentList(10)
  attachmentIds: string[] = [];
}

export class TaskReportDto {
  @IsUUID()
  taskId!: string;

  @IsIn(['done', 'not done'])
  outcome!: 'done' | 'not done';

  @MayBeLeftOut()
  @IsText(1000)
  whyNot?: string;

  @MayBeLeftOut()
  @IsText(2000)
  note?: string;

  /** Of the time of the sheet; missing: shared out by the usual times */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(14_400)
  minutes?: number | null;

  @IsListOf(StepReportDto, 100)
  steps: StepReportDto[] = [];
}

export class PartUsedDto {
  @IsUUID()
  itemId!: string;

  @IsQuantity()
  quantity!: string;

  @IsOptional()
  @IsName(100)
  lot?: string | null;

  /** Where it was taken from */
  @IsUUID()
  placeId!: string;

  /** There was more in that place than the count says */
  @IsBoolean()
  countWasWrong: boolean = false;
}

export class PartFittedDto {
  @IsUUID()
  positionId!: string;

  @IsUUID()
  itemId!: string;

  @IsOptional()
  @IsName(100)
  serialNumber?: string | null;

  @IsOptional()
  @IsName(100)
  lot?: string | null;

  @IsInt()
  @Min(1)
  @Max(10_000)
  setCount: number = 1;

  /** Why the part before was removed */
  @IsOptional()
  @IsName(200)
  removalReason?: string | null;

  /** Where it was taken from; missing: not from our stock */
  @IsOptional()
  @IsUUID()
  fromPlaceId?: string | null;

  @IsBoolean()
  countWasWrong: boolean = false;

  @IsOptional()
  @IsMoment()
  at?: string | null;
}

export class PartRemovedDto {
  @IsUUID()
  positionId!: string;

  @IsName(200)
  reason!: string;

  /** Where it was taken to; missing: thrown away */
  @IsOptional()
  @IsUUID()
  toPlaceId?: string | null;

  @IsOptional()
  @IsMoment()
  at?: string | null;
}

export class MeterReportDto {
  @IsUUID()
  meterId!: string;

  @IsNumber()
  value!: number;

  /** The meter was exchanged: the last value of the old one */
  @IsOptional()
  @IsNumber()
  exchangedOldFinal?: number | null;
}

export class ReadingReportDto {
  @IsIn(Object.keys(SIGNALS))
  signal!: SignalCode;

  @IsNumber()
  value!: number;

  @IsIn(Object.keys(UNITS))
  unit!: UnitCode;
}

export class CleanReportDto {
  @IsIn(['CEB', 'CIP'])
  kind!: 'CEB' | 'CIP';

  @IsName(100)
  chemical!: string;

  @IsOptional()
  @IsNumber()
  strengthMgL?: number | null;

  @IsOptional()
  @IsNumber()
  contactMinutes?: number | null;

  @IsText(1000)
  note: string = '';
}

export class IntegrityReportDto {
  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsNumber()
  startKpa!: number;

  @IsNumber()
  endKpa!: number;

  @IsNumber()
  minutes!: number;

  @IsNumber()
  settledMinutes!: number;

  @IsNumber()
  temperatureC!: number;

  @IsText(1000)
  note: string = '';
}

export class FibreReportDto {
  @IsUUID()
  positionId!: string;

  @IsOptional()
  @IsMoment()
  at?: string | null;

  @IsInt()
  @Min(1)
  @Max(1_000_000)
  fibres!: number;

  @IsText(1000)
  note: string = '';
}

export class CalibrationPointDto {
  @IsNumber()
  reference!: number;

  @IsNumber()
  asFound!: number;

  @IsOptional()
  @IsNumber()
  asLeft?: number | null;
}

export class CalibrationReportDto {
  @IsUUID()
  positionId!: string;

  @IsOptional()
  @IsMoment()
  at?: string | null;

  /** Missing: what the position says that it measures */
  @IsOptional()
  @IsIn(Object.keys(SIGNALS))
  signal?: SignalCode | null;

  @IsIn(Object.keys(UNITS))
  unit!: UnitCode;

  @IsNumber()
  tolerance!: number;

  @IsName(200)
  referenceInstrument!: string;

  @IsText(100)
  certificateNo: string = '';

  @IsListOf(CalibrationPointDto, 20)
  points!: CalibrationPointDto[];

  @IsOptional()
  @IsDay()
  nextOn?: string | null;

  @IsText(1000)
  note: string = '';
}

export class BreakdownReportDto {
  @IsOptional()
  @IsMoment()
  restoredAt?: string | null;

  @IsOptional()
  @IsMoment()
  downFrom?: string | null;

  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(525_600)
  repairMinutes?: number | null;

  @IsOptional()
  @IsIn(FAILURE_MODES)
  failureMode?: FailureMode | null;

  @IsOptional()
  @IsIn(FAILURE_MECHANISM_CODES)
  mechanism?: FailureMechanism | null;

  @MayBeLeftOut()
  @IsText(2000)
  cause?: string;

  @MayBeLeftOut()
  @IsText(2000)
  remedy?: string;
}

export class FollowUpDto {
  @IsName(160)
  title!: string;

  @IsText(4000)
  request: string = '';

  /** With it, it is a breakdown */
  @IsOptional()
  @IsIn(SEVERITIES)
  severity?: Severity | null;
}

/** What was done, as whoever did it fills it in. */
export class JobReportDto {
  /** Made on the device: sent again, the sheet is stored once */
  @IsUUID()
  id!: string;

  /** Kept on the device and sent when there was signal: stored whatever is wrong with it, for the manager to settle */
  @IsBoolean()
  offline: boolean = false;

  @IsMoment()
  startedAt!: string;

  @IsMoment()
  finishedAt!: string;

  /** Time spent, of all who were there */
  @IsNumber()
  @Min(0)
  @Max(14_400)
  minutes!: number;

  @IsIn(['finished', 'to be continued'])
  outcome!: 'finished' | 'to be continued';

  @IsListOf(TaskReportDto, 60)
  tasks: TaskReportDto[] = [];

  @IsListOf(PartUsedDto, 100)
  partsUsed: PartUsedDto[] = [];

  @IsListOf(PartFittedDto, 100)
  partsFitted: PartFittedDto[] = [];

  @IsListOf(PartRemovedDto, 100)
  partsRemoved: PartRemovedDto[] = [];

  @IsListOf(MeterReportDto, 100)
  meters: MeterReportDto[] = [];

  @IsListOf(ReadingReportDto, 40)
  readings: ReadingReportDto[] = [];

  @IsListOf(CleanReportDto, 10)
  cleans: CleanReportDto[] = [];

  @IsListOf(IntegrityReportDto, 10)
  integrityTests: IntegrityReportDto[] = [];

  @IsListOf(FibreReportDto, 100)
  fibreRepairs: FibreReportDto[] = [];

  @IsListOf(CalibrationReportDto, 40)
  calibrations: CalibrationReportDto[] = [];

  /** The skid was stopped or restarted with this work */
  @IsOptional()
  @IsIn(SERVICE_STATES)
  serviceState?: ServiceState | null;

  @IsOptional()
  @IsObject()
  @ValidateNested()
  @Type(() => BreakdownReportDto)
  breakdown?: BreakdownReportDto | null;

  @IsListOf(FollowUpDto, 20)
  followUps: FollowUpDto[] = [];

  @IsText(4000)
  note: string = '';

  /** The name of whoever signs */
  @IsText(200)
  signedBy: string = '';

  @IsAttachmentList(100)
  attachmentIds: string[] = [];
}

export class SettleDto {
  @IsIn(['keep the first', 'take this one'])
  choice!: 'keep the first' | 'take this one';

  @IsName(1000)
  note!: string;
}

export class ReportAnswerView extends View {
  readonly id!: string;
  /** counts; held: something is wrong with it; second: the job was finished by another sheet; set aside */
  readonly state!: string;
  readonly problems!: ReportProblemView[];
  readonly jobState!: JobState;
}
