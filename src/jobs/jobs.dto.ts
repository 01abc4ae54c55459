import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsBoolean, IsIn, IsInt, IsObject, IsOptional, IsUUID, Max, Min, ValidateNested } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../app/index.js';
import type { TaskKind } from '../shared/task-sheet.js';
import { JOB_KINDS, JOB_STATES, type JobKind, type JobState } from '../shared/work.js';

export class JobsQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsUUID()
  visitId?: string;

  /** `to do`: every job that is not finished or dropped */
  @IsOptional()
  @IsIn([...JOB_STATES, 'to do'])
  state?: JobState | 'to do';

  @IsOptional()
  @IsIn(JOB_KINDS)
  kind?: JobKind;

  /** Only those that no visit holds */
  @IsOptional()
  @IsIn(['true', 'false'])
  unplanned?: 'true' | 'false';
}

export class OwnTaskDto {
  @IsName(160)
  task!: string;

  @IsOptional()
  @IsUUID()
  positionId?: string | null;

  /** The sheet that says what it takes */
  @IsOptional()
  @IsUUID()
  taskSheetId?: string | null;

  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(6000)
  expectedMinutes?: number | null;
}

export class NewJobDto {
  @IsUUID()
  skidId!: string;

  @IsIn(['service', 'follow-up'])
  kind: 'service' | 'follow-up' = 'service';

  /** Missing: named after its tasks */
  @MayBeLeftOut()
  @IsName(160)
  title?: string;

  @IsText(4000)
  request: string = '';

  /** The day that is best */
  @MayBeLeftOut()
  @IsDay()
  bestOn?: string;

  @MayBeLeftOut()
  @IsUUID()
  followsJobId?: string;

  /** The job of the same client after which it is to be done */
  @IsOptional()
  @IsUUID()
  afterJobId?: string | null;

  /** Lines of the due list, of this skid */
  @IsArray()
  @ArrayMaxSize(50)
  @IsUUID(undefined, { each: true })
  dueIds: string[] = [];

  @IsArray()
  @ArrayMaxSize(50)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => OwnTaskDto)
  tasks: OwnTaskDto[] = [];
}

export class EditJobDto {
  @MayBeLeftOut()
  @IsName(160)
  title?: string;

  @MayBeLeftOut()
  @IsText(4000)
  request?: string;

  @IsOptional()
  @IsDay()
  earliestOn?: string | null;

  @IsOptional()
  @IsDay()
  bestOn?: string | null;

  @IsOptional()
  @IsDay()
  latestOn?: string | null;

  /** The job of the same client after which it is to be done; null: after none */
  @IsOptional()
  @IsUUID()
  afterJobId?: string | null;
}

export class JobStateDto {
  @IsIn(JOB_STATES)
  to!: JobState;

  /** What it waits for, or why */
  @IsText(500)
  note: string = '';
}

export class JobNoteDto {
  @IsName(2000)
  note!: string;

  /** The client reads it too */
  @IsBoolean()
  toClient: boolean = false;
}

export class JobView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly kind!: JobKind;
  readonly title!: string;
  readonly state!: JobState;
  /** What it waits for, or why it was dropped */
  readonly stateNote!: string;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly clientId!: string;
  readonly clientName!: string;
  readonly timeZone!: string;
  readonly severity!: string | null;
  readonly earliestOn!: string | null;
  readonly bestOn!: string | null;
  readonly latestOn!: string | null;
  readonly visitId!: string | null;
  readonly visitOn!: string | null;
  readonly createdAt!: Date;
  readonly createdBy!: string;
  readonly finishedAt!: Date | null;
  readonly finishedBy!: string | null;
  readonly tasks!: number;
  readonly minutes!: number | null;
  /** Reports that wait for the manager to settle them; clients: none */
  readonly toSettle!: number;
}

export class JobsPageView extends View {
  readonly items!: JobView[];
  readonly next!: string | null;
  readonly total!: number;
}

export class JobTaskView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly kind!: TaskKind;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly reason!: string;
  readonly dueOn!: string | null;
  readonly latestOn!: string | null;
  readonly expectedMinutes!: number | null;
  readonly outcome!: string | null;
  readonly doneAt!: Date | null;
}

export class JobChangeView extends View {
  readonly at!: Date;
  readonly by!: string;
  readonly what!: string;
  readonly from!: string;
  readonly to!: string;
  readonly note!: string;
  readonly toClient!: boolean;
}

export class ReportProblemView extends View {
  readonly pointer!: string;
  readonly message!: string;
}

export class SummaryLineView extends View {
  readonly name!: string;
  readonly value!: string;
  /** Outside its limits, left out, or answered no */
  readonly mark!: string | null;
}

export class SummaryTaskView extends View {
  readonly task!: string;
  readonly positionName!: string | null;
  readonly outcome!: string;
  readonly note!: string;
  readonly steps!: SummaryLineView[];
}

export class JobReportView extends View {
  readonly id!: string;
  readonly by!: string;
  readonly startedAt!: Date;
  readonly finishedAt!: Date;
  readonly receivedAt!: Date;
  /** counts, held, second, set aside */
  readonly state!: string;
  readonly minutes!: number;
  readonly signedBy!: string;
  readonly note!: string;
  readonly tasks!: SummaryTaskView[];
  /** Parts, readings, cleans, tests: what else was done */
  readonly lines!: SummaryLineView[];
  /** What keeps it from counting; clients: none */
  readonly problems!: ReportProblemView[];
}

export class JobInOrderView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly title!: string;
  readonly state!: JobState;
}

export class JobDetailView extends JobView {
  readonly request!: string;
  /** Of a follow-up: the job that it came from */
  readonly followsJobId!: string | null;
  /** The job after which it is to be done */
  readonly afterJob!: JobInOrderView | null;
  /** Jobs to be done that wait for this one */
  readonly jobsAfter!: JobInOrderView[];
  readonly version!: number;
  readonly taskList!: JobTaskView[];
  readonly changes!: JobChangeView[];
  readonly reports!: JobReportView[];
}
