import { OmitType, PartialType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { ArrayMaxSize, IsArray, IsIn, IsNumber, IsObject, IsOptional, IsUUID, Max, Min, ValidateNested } from 'class-validator';
import { IsName, MayBeLeftOut, View } from '../app/index.js';
import { TANK_SHAPES, type TankShape } from './core/tank-shape.js';
import { RegistryQuery } from './registry.dto.js';

const SUPPLIERS_OF_TANKS = ['us', 'client'] as const;
type TankSupplier = (typeof SUPPLIERS_OF_TANKS)[number];

export class LevelRowDto {
  @IsNumber()
  @Min(0)
  @Max(50)
  levelM!: number;

  /** What the tank holds up to there */
  @IsNumber()
  @Min(0)
  @Max(1_000_000)
  volumeL!: number;
}

export class TankDto {
  @IsUUID()
  skidId!: string;

  @IsName()
  name!: string;

  @IsName(80)
  chemical!: string;

  @IsIn(TANK_SHAPES)
  shape!: TankShape;

  @IsOptional()
  @Min(0.001)
  @Max(50)
  diameterM?: number | null;

  @IsOptional()
  @Min(0.001)
  @Max(50)
  lengthM?: number | null;

  @IsOptional()
  @Min(0.001)
  @Max(50)
  widthM?: number | null;

  @Min(0.001)
  @Max(50)
  heightM!: number;

  @Min(0.001)
  @Max(1_000_000)
  capacityL!: number;

  /** Below the suction: cannot be used */
  @MayBeLeftOut()
  @Min(0)
  @Max(1_000_000)
  heelL?: number;

  /** Of the product as delivered, in grams of the active substance a litre */
  @IsOptional()
  @Min(0.001)
  @Max(2_000)
  strengthGL?: number | null;

  /** Temperature at which it is stored */
  @IsOptional()
  @Min(-30)
  @Max(60)
  storageC?: number | null;

  /** Continuous dose into the filtrate or the feed */
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

  /** Levels with their volumes, rising, where the shape is a table */
  @IsOptional()
  @IsArray()
  @ArrayMaxSize(500)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => LevelRowDto)
  levelTable?: LevelRowDto[] | null;

  /** Who sees to it that it is filled */
  @MayBeLeftOut()
  @IsIn(SUPPLIERS_OF_TANKS)
  suppliedBy?: TankSupplier;

  /** The item that is bought to fill it */
  @IsOptional()
  @IsUUID()
  itemId?: string | null;

  /** A day tank: the tank of the same site from which it is filled */
  @IsOptional()
  @IsUUID()
  fedFromId?: string | null;
}

export class TankEditDto extends PartialType(OmitType(TankDto, ['skidId']), { skipNullProperties: false }) {}

export class TanksQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;
}

export class TankView extends View {
  readonly id!: string;
  readonly clientId!: string;
  readonly skidId!: string;
  readonly name!: string;
  readonly chemical!: string;
  readonly shape!: TankShape;
  readonly diameterM!: number | null;
  readonly lengthM!: number | null;
  readonly widthM!: number | null;
  readonly heightM!: number;
  readonly capacityL!: number;
  readonly heelL!: number;
  readonly strengthGL!: number | null;
  readonly storageC!: number | null;
  readonly doseMgL!: number | null;
  readonly litresPerCeb!: number | null;
  readonly litresPerCip!: number | null;
  readonly levelTable!: LevelRowDto[] | null;
  readonly suppliedBy!: TankSupplier;
  readonly itemId!: string | null;
  readonly fedFromId!: string | null;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class TanksPageView extends View {
  readonly items!: TankView[];
  readonly next!: string | null;
}
