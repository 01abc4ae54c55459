import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { View } from '../../app/index.js';

export const FORECAST_KINDS = ['permeability', 'cartridge dP', 'life'] as const;
export type ForecastKind = (typeof FORECAST_KINDS)[number];

export class OutlookRecordQuery {
  @IsOptional()
  @IsUUID()
  skidId?: string;

  @IsOptional()
  @IsUUID()
  clientId?: string;

  /** Which limit the forecasts were about */
  @IsOptional()
  @IsIn(FORECAST_KINDS)
  limitKind?: ForecastKind;
}

/** How right forecasts of one kind and reach have been. */
export class OutlookRecordLineView extends View {
  readonly limitKind!: ForecastKind;
  /** What the forecast said at its origin: days ahead, in words; all of them where it is "all" */
  readonly ahead!: string;
  /** Forecasts whose limit was met since */
  readonly scored!: number;
  /** Lives that they belong to: so many independent cases */
  readonly lives!: number;
  /** Of the scored, made later for a day of the past, from what had been measured until then */
  readonly afterwards!: number;
  /** Changed or cleaned before the limit: neither right nor wrong */
  readonly earlyChanges!: number;
  /** Nothing has come yet */
  readonly open!: number;
  /** Median of the difference to what came, in days; null: nothing scored, or the middle forecast was beyond its horizon */
  readonly medianErrorDays!: number | null;
  /** The same as a share of the time that it took */
  readonly medianErrorShare!: number | null;
  /** Of the scored, said later than it came */
  readonly saidLater!: number;
  /** Of the scored, between P10 and P90; eight in ten should be */
  readonly inside!: number;
  /** Between which shares, for so many lives, the share inside lies in 19 of 20 cases */
  @ApiProperty({ type: 'array', items: { type: 'number' }, nullable: true })
  readonly insideRange!: number[] | null;
  /** Early changes and open ones that outlasted P90 */
  readonly saidTooEarly!: number;
  /** What may be read from it, in a sentence */
  readonly inWords!: string;
}

/** How right forecasts of one part have been. */
export class PartRecordView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  /** What the limit is of: the membranes, or the position of the part */
  readonly subject!: string;
  readonly limitKind!: ForecastKind;
  readonly scored!: number;
  /** Lives that they belong to: so many independent cases */
  readonly lives!: number;
  /** Of the scored, between P10 and P90 */
  readonly inside!: number;
  /** Between which shares, for so many lives, the share inside lies in 19 of 20 cases */
  @ApiProperty({ type: 'array', items: { type: 'number' } })
  readonly insideRange!: number[];
}

export class WorstPartView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  readonly limitKind!: ForecastKind;
  readonly scored!: number;
  readonly inside!: number;
}

export class OutlookRecordView extends View {
  readonly lines!: OutlookRecordLineView[];
  /** Of each part with five scored ones or more, where the fewest held first; twenty at most */
  readonly parts!: PartRecordView[];
  /** Where the fewest forecasts held, among skids with five scored ones or more; null: there is none */
  readonly worst!: WorstPartView | null;
}
