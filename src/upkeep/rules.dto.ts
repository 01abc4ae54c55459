import { ArrayMaxSize, ArrayUnique, IsArray, IsIn, IsInt, IsNumber, IsOptional, IsUUID, Matches, Max, Min } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import {
  CONDITION_FIGURES,
  type ConditionFigure,
  OUTLOOK_LIMITS,
  type OutlookLimit,
  RULE_PLACES,
  type RulePlace,
  WHILE_LAID_UP,
  type WhileLaidUp,
} from '../shared/upkeep-terms.js';

const OUTLOOK_NAMES = Object.keys(OUTLOOK_LIMITS);
const FIGURE_NAMES = Object.keys(CONDITION_FIGURES);

/** Limits of use and of time, whichever comes first. */
export class UseLimitsDto {
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

  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(36_500)
  days?: number | null;

  /** Days after the due day that do no harm; unset: a fifth of the interval, 28 at most */
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(365)
  graceDays?: number | null;
}

/** What a rule says. Without any limit it would never fall due, so at least one is needed. */
export class RuleContentDto extends UseLimitsDto {
  /** What is to be done, in words */
  @IsName()
  task!: string;

  /** A kind of position, or skid for the skid as a whole */
  @IsIn(RULE_PLACES)
  positionKind!: RulePlace;

  /** Due when the outlook says that this limit is met */
  @IsOptional()
  @IsIn(OUTLOOK_NAMES)
  outlookLimit?: OutlookLimit | null;

  /** Due from the first day on which this figure of the condition lies above or below */
  @IsOptional()
  @IsIn(FIGURE_NAMES)
  conditionFigure?: ConditionFigure | null;

  /** In kPa or NTU; a share as a part of 1 */
  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(100_000)
  conditionAbove?: number | null;

  @IsOptional()
  @IsNumber()
  @Min(0)
  @Max(100_000)
  conditionBelow?: number | null;

  /** Counted from the day it was done, or from the day it was due */
  @IsIn(['floating', 'fixed'])
  base: 'floating' | 'fixed' = 'floating';

  /** What the calendar does while the skid is laid up */
  @IsIn(WHILE_LAID_UP)
  whileLaidUp: WhileLaidUp = 'stands still';

  /** Smaller tasks of the same kind of position that are done with this one, two levels deep */
  @IsArray()
  @ArrayMaxSize(20)
  @ArrayUnique()
  @Matches(/^[^\0\n]{1,120}$/, { each: true, message: 'each of contains must be the name of a task, text of 1 to 120 characters' })
  contains: string[] = [];

  /** What doing the task takes */
  @IsUUID()
  taskSheetId!: string;

  @IsText()
  note: string = '';
}

/** A rule of a draft, or of one skid alone. */
export class RuleDto extends RuleContentDto {
  /** A draft of a rule set */
  @MayBeLeftOut()
  @IsUUID()
  ruleSetVersionId?: string;

  /** Only for this skid */
  @MayBeLeftOut()
  @IsUUID()
  skidId?: string;
}

export class EndRuleDto {
  /** The last day that the rule holds */
  @IsDay()
  on!: string;
}

export class RuleView extends View {
  readonly id!: string;
  readonly ruleSetVersionId!: string | null;
  readonly skidId!: string | null;
  readonly task!: string;
  readonly positionKind!: string;
  readonly runHours!: number | null;
  readonly starts!: number | null;
  readonly cycles!: number | null;
  readonly days!: number | null;
  readonly outlookLimit!: string | null;
  readonly conditionFigure!: string | null;
  readonly conditionAbove!: number | null;
  readonly conditionBelow!: number | null;
  readonly base!: string;
  readonly graceDays!: number | null;
  readonly whileLaidUp!: string;
  readonly contains!: string[];
  readonly taskSheetId!: string;
  readonly sheetTask!: string;
  /** Time on the clock, and people */
  readonly usualMinutes!: number;
  readonly crew!: number;
  /** Its limits in words */
  readonly inWords!: string;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}
