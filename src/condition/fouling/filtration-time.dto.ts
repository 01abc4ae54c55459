import { ApiProperty } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { IsNumber, IsOptional, Max, Min } from 'class-validator';
import { View } from '../../app/index.js';

export class FiltrationTimeQuery {
  /** Water that one hydraulic clean takes, m3. Left out: net filtrate and recovery are not said */
  @IsOptional()
  @Type(() => Number)
  @IsNumber()
  @Min(0)
  @Max(1000)
  cleanM3?: number;
}

export class TimeOptionView extends View {
  /** Of filtration, between hydraulic cleans */
  readonly minutes!: number;
  readonly runsPerDay!: number;
  readonly filtrateM3PerDay!: number;
  /** Transmembrane pressure at the end of a run */
  readonly endKpa!: number;
  readonly netM3PerDay!: number | null;
  readonly recovery!: number | null;
}

/** What other times of filtration would give with the water of the last days. */
export class FiltrationTimeView extends View {
  /** Of the last three days; null: too few runs, and `inWords` says what is missing */
  readonly minutes!: number | null;
  /** After which the pressure within a run has risen as much as usual; null: it rises as usual */
  readonly wished!: number | null;
  /** What is seen, with the figures that it was reckoned from */
  readonly inWords!: string;
  @ApiProperty({ type: () => [TimeOptionView] })
  readonly options!: TimeOptionView[];
}
