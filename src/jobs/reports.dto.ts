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
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsMoment, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { SERVICE_STATES, type ServiceState } from '../shared/service-states.js';
import type { JobState } from '../shared/work.js';
import { IsListOf } from './is-list-of.js';
import { ReportProblemView } from './jobs.dto.js';
import { CalibrationReportDto, FibreReportDto, IntegrityReportDto } from './report-proofs.dto.js';
import {
  BreakdownReportDto,
  CleanReportDto,
  FollowUpDto,
  MeterReportDto,
  PartFittedDto,
  PartRemovedDto,
  PartUsedDto,
  ReadingReportDto,
} from './report-records.dto.js';

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

  /** On the way to the site, of one person: said in the first sheet of a visit */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(2880)
  travelMinutes?: number | null;

  /** By the odometer */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(20_000)
  travelKm?: number | null;

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

/** A sheet as it was sent, for whoever corrects it. */
export class SentReportView extends View {
  readonly id!: string;
  readonly state!: string;
  readonly by!: string;
  readonly receivedAt!: Date;
  readonly problems!: ReportProblemView[];
  readonly content!: JobReportDto;
}

export class ReportAnswerView extends View {
  readonly id!: string;
  /** counts; held: something is wrong with it; second: the job was finished by another sheet; set aside */
  readonly state!: string;
  readonly problems!: ReportProblemView[];
  readonly jobState!: JobState;
}
