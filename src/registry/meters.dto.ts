import { OmitType, PartialType } from '@nestjs/swagger';
import { IsIn, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { View } from '../app/index.js';
import { METER_KINDS, type MeterKind } from '../shared/meter-kinds.js';
import { RegistryQuery } from './registry.dto.js';

export class MeterDto {
  @IsUUID()
  positionId!: string;

  @IsIn(METER_KINDS)
  kind!: MeterKind;

  /** The value at which the display begins again at 0: 100000 for five digits */
  @IsOptional()
  @Min(0.001)
  @Max(1e12)
  modulus?: number | null;
}

export class MeterEditDto extends PartialType(OmitType(MeterDto, ['positionId', 'kind']), { skipNullProperties: false }) {}

export class MetersQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  positionId?: string;
}

export class MeterView extends View {
  readonly id!: string;
  readonly skidId!: string;
  readonly positionId!: string;
  readonly positionName!: string;
  readonly kind!: MeterKind;
  readonly modulus!: number | null;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class MetersPageView extends View {
  readonly items!: MeterView[];
  readonly next!: string | null;
}
