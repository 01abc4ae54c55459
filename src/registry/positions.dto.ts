import { OmitType, PartialType } from '@nestjs/swagger';
import { IsIn, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsName, View } from '../app/index.js';
import { POSITION_KINDS, type PositionKind } from '../shared/position-kinds.js';
import { SIGNALS, type SignalCode } from '../shared/signals.js';
import { RegistryQuery } from './registry.dto.js';

export class PositionDto {
  @IsUUID()
  skidId!: string;

  /** The position that it is within: of an actuator its valve, of a seal its pump */
  @IsOptional()
  @IsUUID()
  parentId?: string | null;

  @IsIn(POSITION_KINDS)
  kind!: PositionKind;

  @IsName()
  name!: string;

  /** Of an automatic valve: strokes in one filtration cycle */
  @IsOptional()
  @Min(0.001)
  @Max(1000)
  strokesPerCycle?: number | null;

  /** Of a transmitter: what it measures */
  @IsOptional()
  @IsIn(Object.keys(SIGNALS))
  signal?: SignalCode | null;
}

export class PositionEditDto extends PartialType(OmitType(PositionDto, ['skidId']), { skipNullProperties: false }) {}

export class PositionsQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;
}

/** The part that is there now. */
export class FittedPartView extends View {
  readonly fittingId!: string;
  readonly partId!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly serialNumber!: string | null;
  /** How many pieces were fitted together */
  readonly setCount!: number;
  readonly lot!: string | null;
  readonly fittedAt!: Date;
}

export class PositionView extends View {
  readonly id!: string;
  readonly clientId!: string;
  readonly skidId!: string;
  readonly parentId!: string | null;
  readonly kind!: PositionKind;
  readonly name!: string;
  readonly strokesPerCycle!: number | null;
  /** Of a transmitter: the code of the signal that it measures */
  readonly signal!: string | null;
  readonly fitted!: FittedPartView | null;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class PositionsPageView extends View {
  readonly items!: PositionView[];
  readonly next!: string | null;
}
