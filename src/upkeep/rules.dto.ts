import { ArrayMaxSize, IsArray, IsIn, IsInt, IsNumber, IsOptional, IsString, IsUUID, Length, Max, Min, ValidateIf } from 'class-validator';
import { IsDay, View } from '../app/index.js';
import { POSITION_KINDS, type PositionKind } from '../shared/position-kinds.js';

/** A rule without any limit would never fall due: at least one of runHours, starts, cycles and days is needed. */
export class RuleDto {
  /** What is to be done, in words */
  @IsString()
  @Length(1, 120)
  task!: string;

  @IsIn(POSITION_KINDS)
  positionKind!: PositionKind;

  /** Only for this skid */
  @IsOptional()
  @IsUUID()
  skidId?: string | null;

  @IsOptional()
  @IsNumber()
  @Min(0.001)
  @Max(1_000_000)
  runHours?: number | null;

  @IsOptional()
  @IsNumber()
  @Min(0.001)
  @Max(1_000_000_000)
  starts?: number | null;

  @IsOptional()
  @IsNumber()
  @Min(0.001)
  @Max(1_000_000_000)
  cycles?: number | null;

  @ValidateIf((rule: RuleDto) => rule.days != null || (rule.runHours == null && rule.starts == null && rule.cycles == null))
  @IsInt({ message: 'days must be a whole number where none of runHours, starts and cycles is given: a rule needs at least one limit' })
  @Min(1)
  @Max(36_500)
  days?: number | null;

  /** Counted from the day it was done, or from the day it was due */
  @IsIn(['floating', 'fixed'])
  base: 'floating' | 'fixed' = 'floating';

  /** Days after the due day that do no harm; unset: a fifth of the interval, 28 at most */
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(365)
  graceDays?: number | null;

  /** Smaller tasks of the same kind of position that are done with this one */
  @IsArray()
  @ArrayMaxSize(20)
  @IsString({ each: true })
  @Length(1, 120, { each: true })
  contains: string[] = [];

  /** What doing the task takes */
  @IsUUID()
  taskSheetId!: string;

  @IsString()
  @Length(0, 2000)
  note: string = '';
}

export class EndRuleDto {
  /** The last day that the rule holds */
  @IsDay()
  on!: string;
}

export class RuleView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly positionKind!: string;
  readonly skidId!: string | null;
  readonly runHours!: number | null;
  readonly starts!: number | null;
  readonly cycles!: number | null;
  readonly days!: number | null;
  readonly base!: string;
  readonly graceDays!: number | null;
  readonly contains!: string[];
  readonly taskSheetId!: string;
  readonly expectedMinutes!: number | null;
  readonly note!: string;
  readonly version!: number;
}
