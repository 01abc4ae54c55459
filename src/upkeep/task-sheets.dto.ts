import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayUnique, IsArray, IsBoolean, IsIn, IsInt, IsNumber, IsOptional, IsUUID, Matches, Max, Min, ValidateNested } from 'class-validator';
import { IsDay, IsName, IsText, PageQuery, View } from '../app/index.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { HAZARDS, type Hazard, STEP_KINDS, type StepKind, TASK_KINDS, type TaskKind } from '../shared/task-sheet.js';

const LINE = /^[^\0\n]{1,120}$/;
const Lines = (what: string) => Matches(LINE, { each: true, message: `each of ${what} must be text of 1 to 120 characters` });

export class StepDto {
  @IsIn(STEP_KINDS)
  kind!: StepKind;

  @IsName(500)
  text!: string;

  /** It keeps people or water safe: it can be left out only with a reason that is kept */
  @IsBoolean()
  safety: boolean = false;

  /** Of a reading: what it reads, where it is a signal that is known here */
  @IsOptional()
  @IsIn(Object.keys(SIGNALS))
  signal?: SignalCode | null;

  /** Of a reading: a UCUM code */
  @IsOptional()
  @Matches(/^[\x21-\x7e]{1,30}$/, { message: 'unit must be a UCUM code, such as kPa, m3/h, Cel, mm or MOhm' })
  unit?: string | null;

  /** Of a reading: from which value on it is as it should be */
  @IsOptional()
  @IsNumber()
  low?: number | null;

  @IsOptional()
  @IsNumber()
  high?: number | null;
}

export class ChemicalDto {
  @IsName()
  chemical!: string;

  @IsNumber()
  @Min(0.001)
  @Max(1_000_000)
  litres!: number;

  /** As on the drum or in the bath, in words */
  @IsText(120)
  strength: string = '';
}

export class SheetPartDto {
  @IsUUID()
  itemId!: string;

  /** A decimal number above 0, as text */
  @Matches(/^(?!0+(\.0+)?$)\d{1,12}(\.\d{1,6})?$/, { message: 'quantity must be a decimal number above 0, as text, such as "2" or "0.5"' })
  quantity!: string;

  /** Once for a visit, however many tasks ask for it */
  @IsBoolean()
  everyVisit: boolean = false;
}

/** What doing the task takes. Each edit makes the next version, which new work follows. */
export class TaskSheetContentDto {
  @IsIn(TASK_KINDS)
  kind!: TaskKind;

  /** Time on the clock */
  @IsInt()
  @Min(1)
  @Max(10_000)
  usualMinutes!: number;

  /** People at the same time */
  @IsInt()
  @Min(1)
  @Max(20)
  crew: number = 1;

  @IsInt()
  @Min(0)
  @Max(100_000)
  waterOffMinutes: number = 0;

  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @Lines('skills')
  skills: string[] = [];

  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @Lines('certificates')
  certificates: string[] = [];

  @IsArray()
  @ArrayMaxSize(50)
  @ArrayUnique()
  @Lines('tools')
  tools: string[] = [];

  /** To measure with */
  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @Lines('instruments')
  instruments: string[] = [];

  @IsArray()
  @ArrayMaxSize(20)
  @ValidateNested({ each: true })
  @Type(() => ChemicalDto)
  chemicals: ChemicalDto[] = [];

  /** In the order of the work */
  @IsArray()
  @ArrayMaxSize(100)
  @ValidateNested({ each: true })
  @Type(() => StepDto)
  steps: StepDto[] = [];

  @IsArray()
  @ArrayUnique()
  @IsIn(HAZARDS, { each: true })
  hazards: Hazard[] = [];

  @IsText()
  note: string = '';

  @IsArray()
  @ArrayMaxSize(100)
  @ArrayUnique(({ itemId }: SheetPartDto) => itemId, { message: 'parts must name each item once' })
  @ValidateNested({ each: true })
  @Type(() => SheetPartDto)
  parts: SheetPartDto[] = [];
}

export class TaskSheetDto extends TaskSheetContentDto {
  /** What is to be done, in words; no two sheets have the same */
  @IsName()
  task!: string;
}

export class TaskSheetsQuery extends PageQuery {
  @IsOptional()
  @IsIn(TASK_KINDS)
  kind?: TaskKind;

  /** Only those that have ended, instead of only those that have not */
  @IsOptional()
  @IsIn(['true', 'false'])
  ended?: 'true' | 'false';
}

export class EndTaskSheetDto {
  @IsDay()
  on!: string;
}

export class StepView extends View {
  readonly no!: number;
  readonly kind!: StepKind;
  readonly text!: string;
  readonly safety!: boolean;
  readonly signal!: string | null;
  readonly unit!: string | null;
  readonly low!: number | null;
  readonly high!: number | null;
}

export class SheetChemicalView extends View {
  readonly chemical!: string;
  readonly litres!: number;
  readonly strength!: string;
}

export class SheetPartView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  /** A decimal number */
  readonly quantity!: string;
  readonly everyVisit!: boolean;
}

export class SheetVersionView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly usualMinutes!: number;
  readonly crew!: number;
  readonly waterOffMinutes!: number;
  readonly skills!: string[];
  readonly certificates!: string[];
  readonly tools!: string[];
  readonly instruments!: string[];
  readonly chemicals!: SheetChemicalView[];
  readonly steps!: StepView[];
  readonly hazards!: string[];
  readonly note!: string;
  readonly parts!: SheetPartView[];
}

export class SheetVersionHeadView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly createdAt!: Date;
  readonly createdBy!: string;
}

export class TaskSheetHeadView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly kind!: string;
  readonly endedOn!: string | null;
  readonly latestNo!: number;
  readonly usualMinutes!: number;
  readonly crew!: number;
  readonly waterOffMinutes!: number;
}

export class TaskSheetsPageView extends View {
  readonly items!: TaskSheetHeadView[];
  readonly next!: string | null;
}

export class TaskSheetView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly kind!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
  readonly latest!: SheetVersionView;
  /** The latest first */
  readonly versions!: SheetVersionHeadView[];
}

export class PartFindingView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  readonly unit!: string;
  readonly what!: 'asked but seldom used' | 'used but not asked' | 'another quantity';
  readonly asked!: number | null;
  /** Usual quantity of the jobs that used it */
  readonly used!: number | null;
  readonly usedIn!: number;
  readonly jobs!: number;
}

/** What finished jobs say against the sheet. Nothing is changed by it: a person takes it or leaves it. */
export class SheetSuggestionsView extends View {
  readonly taskSheetId!: string;
  readonly sheetMinutes!: number;
  /** Jobs that say how long it took; from 3 on the rest is given */
  readonly jobs!: number;
  readonly usualMinutes!: number | null;
  readonly leastMinutes!: number | null;
  readonly mostMinutes!: number | null;
  /** Jobs that had this task alone, so that their parts are its parts */
  readonly jobsWithParts!: number;
  readonly parts!: PartFindingView[];
  /** In words */
  readonly summary!: string;
}
