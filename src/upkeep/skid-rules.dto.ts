import { IsBoolean, IsIn, IsUUID } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { RULE_PLACES, type RulePlace } from '../shared/upkeep-terms.js';
import { RuleView, UseLimitsDto } from './rules.dto.js';

/** Other limits for a rule at this skid, or at one position of it. A limit of use or time that is given takes the place of all of these limits of the rule. */
export class OverrideDto extends UseLimitsDto {
  /** The task of the rule */
  @IsName()
  task!: string;

  @IsIn(RULE_PLACES)
  positionKind!: RulePlace;

  /** Left out: at every position of the kind */
  @MayBeLeftOut()
  @IsUUID()
  positionId?: string;

  /** The rule does not hold here at all */
  @IsBoolean()
  off: boolean = false;

  /** Why the rule does not fit here */
  @IsText(1000)
  reason!: string;
}

export class OverrideView extends View {
  readonly id!: string;
  readonly task!: string;
  readonly positionKind!: string;
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly off!: boolean;
  readonly runHours!: number | null;
  readonly starts!: number | null;
  readonly cycles!: number | null;
  readonly days!: number | null;
  readonly graceDays!: number | null;
  readonly reason!: string;
  readonly by!: string;
  readonly at!: Date;
  readonly endedAt!: Date | null;
  readonly endedBy!: string | null;
}

/** A rule at one place of the skid, with the limits that hold there. */
export class EffectiveRuleView extends View {
  readonly positionId!: string | null;
  /** Empty: the skid as a whole */
  readonly positionName!: string;
  /** The version that the skid follows, a rule of the skid alone, or an override of either */
  readonly source!: 'set' | 'skid' | 'override';
  /** Of an override */
  readonly reason!: string | null;
  readonly overrideId!: string | null;
  /** The limits that hold here, in words */
  readonly inWords!: string;
  readonly rule!: RuleView;
}

export class FollowedVersionView extends View {
  readonly ruleSetId!: string;
  readonly ruleSetName!: string;
  readonly versionId!: string;
  readonly no!: number;
  /** The latest published version, where it is another one */
  readonly newerVersionId!: string | null;
  readonly newerNo!: number | null;
}

export class SkidRulesView extends View {
  readonly skidId!: string;
  readonly follows!: FollowedVersionView | null;
  readonly rules!: EffectiveRuleView[];
  /** Those that hold first, then those that have ended */
  readonly overrides!: OverrideView[];
}
