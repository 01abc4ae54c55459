import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../app/index.js';
import { STANDINGS, type Standing } from '../shared/standing.js';

export class DueQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  @IsOptional()
  @IsUUID()
  siteId?: string;

  @IsOptional()
  @IsIn(STANDINGS)
  standing?: Standing;
}

export class NeededPartView extends View {
  readonly itemId!: string;
  readonly code!: string;
  readonly name!: string;
  /** A decimal number */
  readonly quantity!: string;
  readonly unit!: string;
}

/** What a due was computed from: a name and its value in words. */
export class BasisView extends View {
  readonly name!: string;
  readonly value!: string;
}

/** One task that a rule or an outlook asks for. */
export class DueView extends View {
  readonly id!: string;
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteId!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  /** Null: the skid as a whole */
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly task!: string;
  readonly standing!: Standing;
  readonly earliestOn!: string | null;
  /** The day to do it */
  readonly bestOn!: string | null;
  readonly latestOn!: string | null;
  /** run hours, starts, cycles, calendar, permeability, cartridge pressure drop, or a figure of the condition */
  readonly limit!: string;
  readonly reason!: string;
  readonly computedFrom!: BasisView[];
  readonly expectedMinutes!: number | null;
  readonly taskSheetId!: string | null;
  /** The job that has it on its list already */
  readonly jobId!: string | null;
  readonly jobNo!: number | null;
  readonly parts!: NeededPartView[];
}

export class DuePageView extends View {
  readonly items!: DueView[];
  readonly next!: string | null;
  /** All that match */
  readonly total!: number;
}
