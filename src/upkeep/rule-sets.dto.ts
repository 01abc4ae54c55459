import { ArrayMaxSize, ArrayMinSize, ArrayUnique, IsArray, IsIn, IsOptional, IsUUID } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import type { RuleView } from './rules.dto.js';

export class RuleSetDto {
  @IsName()
  name!: string;

  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class RuleSetEditDto {
  @MayBeLeftOut()
  @IsName()
  name?: string;

  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class RuleSetsQuery {
  /** Only those that have ended, instead of only those that have not */
  @IsOptional()
  @IsIn(['true', 'false'])
  ended?: 'true' | 'false';
}

export class EndRuleSetDto {
  /** The last day that it can be chosen */
  @IsDay()
  on!: string;
}

export class VersionNoteDto {
  /** Why there is a new version */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class FollowDto {
  /** 1 to 200 */
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @ArrayUnique()
  @IsUUID(undefined, { each: true })
  skidIds!: string[];
}

export class RuleSetVersionHeadView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly note!: string;
  readonly createdAt!: Date;
  readonly createdBy!: string;
  /** Null: a draft */
  readonly publishedAt!: Date | null;
  readonly publishedBy!: string | null;
  readonly rules!: number;
  readonly skids!: number;
}

export class RuleSetView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
  /** The latest first */
  readonly versions!: RuleSetVersionHeadView[];
}

export class FieldChangeView extends View {
  readonly field!: string;
  readonly from!: string;
  readonly to!: string;
}

export class RuleChangeView extends View {
  readonly positionKind!: string;
  readonly task!: string;
  readonly what!: 'added' | 'removed' | 'changed';
  readonly fields!: FieldChangeView[];
}

export class FollowerView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly siteName!: string;
  readonly clientName!: string;
}

export class RuleSetVersionView extends View {
  readonly id!: string;
  readonly ruleSetId!: string;
  readonly ruleSetName!: string;
  readonly no!: number;
  readonly note!: string;
  readonly createdAt!: Date;
  readonly createdBy!: string;
  readonly publishedAt!: Date | null;
  readonly publishedBy!: string | null;
  readonly rules!: RuleView[];
  /** Against the version before */
  readonly changes!: RuleChangeView[];
  /** Skids that follow it */
  readonly skids!: FollowerView[];
}

/** How the dues of one skid would change. */
export class DueChangeView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  /** What it follows now */
  readonly follows!: string | null;
  readonly added!: number;
  readonly gone!: number;
  readonly earlier!: number;
  readonly later!: number;
  readonly same!: number;
}

export class FollowPreviewView extends View {
  readonly skids!: DueChangeView[];
  readonly added!: number;
  readonly gone!: number;
  readonly earlier!: number;
  readonly later!: number;
  readonly same!: number;
}

export class FollowedView extends View {
  /** Skids for which it is new */
  readonly moved!: number;
  /** Skids for which it was so already */
  readonly unchanged!: number;
}

export class LibraryLoadedView extends View {
  readonly ruleSetId!: string;
  readonly ruleSetVersionId!: string;
  readonly name!: string;
  /** What was made now; 0 where it was there already */
  readonly sheetsMade!: number;
  readonly rulesMade!: number;
}
