import { OmitType, PartialType } from '@nestjs/swagger';
import { IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsName, View } from '../../app/index.js';

export class TankUserDto {
  @IsName()
  name!: string;

  /** A skid of the same site; left out: outside the skids */
  @IsOptional()
  @IsUUID()
  skidId?: string | null;

  /** Continuous dose into what the skid filters */
  @IsOptional()
  @Min(0.001)
  @Max(1_000)
  doseMgL?: number | null;

  @IsOptional()
  @Min(0.001)
  @Max(100_000)
  litresPerCeb?: number | null;

  @IsOptional()
  @Min(0.001)
  @Max(100_000)
  litresPerCip?: number | null;

  /** What is drawn besides on an average day */
  @IsOptional()
  @Min(0.001)
  @Max(100_000)
  litresPerDay?: number | null;

  /** Scatter of that between days, as a standard deviation */
  @IsOptional()
  @Min(0)
  @Max(100_000)
  sdPerDay?: number | null;
}

export class TankUserEditDto extends PartialType(OmitType(TankUserDto, ['skidId']), { skipNullProperties: false }) {}

/** Who draws from a tank by a recipe of its own. */
export class TankUserView extends View {
  readonly id!: string;
  readonly tankId!: string;
  readonly skidId!: string | null;
  readonly name!: string;
  readonly doseMgL!: number | null;
  readonly litresPerCeb!: number | null;
  readonly litresPerCip!: number | null;
  readonly litresPerDay!: number | null;
  readonly sdPerDay!: number | null;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class TankUsersPageView extends View {
  readonly items!: TankUserView[];
  readonly next!: string | null;
}
