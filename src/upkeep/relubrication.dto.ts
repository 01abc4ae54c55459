import { Type } from 'class-transformer';
import { IsIn, IsNumber, IsOptional, Max, Min } from 'class-validator';
import { View } from '../app/index.js';
import { BEARING_KINDS, type BearingKind } from './core/relubrication.js';

export class RelubricationQuery {
  @IsIn(Object.keys(BEARING_KINDS))
  kind!: BearingKind;

  @Type(() => Number)
  @IsNumber()
  @Min(1)
  @Max(100_000)
  speedPerMin!: number;

  @Type(() => Number)
  @IsNumber()
  @Min(1)
  @Max(2000)
  boreMm!: number;

  /** Of the housing at the bearing; 55 by default, up to which nothing is taken off */
  @IsOptional()
  @Type(() => Number)
  @IsNumber()
  @Min(-40)
  @Max(200)
  temperatureC?: number;
}

export class RelubricationView extends View {
  /** Null: the rule has no answer, and the note says why */
  readonly hours!: number | null;
  readonly note!: string;
}
