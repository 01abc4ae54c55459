import { ApiProperty } from '@nestjs/swagger';
import { IsIn, IsUUID } from 'class-validator';
import { View } from '../app/index.js';

export const QUANTITIES = ['permeability', 'cartridge-dp'] as const;
export type Quantity = (typeof QUANTITIES)[number];

export class TrendParams {
  @IsUUID()
  skidId!: string;

  /** What is drawn */
  @IsIn(QUANTITIES)
  quantity!: Quantity;
}

/** One point of the forecast as it is drawn. */
export class ForecastPointView extends View {
  /** Local date */
  readonly day!: string;
  readonly low!: number;
  readonly mid!: number;
  readonly high!: number;
}

export class OutlookView extends View {
  /** outlook, limit-met or too-little-data */
  readonly kind!: 'outlook' | 'limit-met' | 'too-little-data';
  /** The latest reading that the forecast knew */
  readonly originAt!: Date;
  readonly computedAt!: Date;
  readonly model!: string;
  readonly modelVersion!: string;
  /** 1 in 10 that the limit is met by this day; null: beyond two years */
  readonly p10On!: string | null;
  /** As likely before as after */
  readonly p50On!: string | null;
  /** 9 in 10 that the limit is met by this day */
  readonly p90On!: string | null;
  /** Probability that the limit is not met within two years */
  readonly shareBeyond!: number | null;
  /** A plain sentence, and one for each instrument that was found wrong */
  readonly reason!: string;
  /** What it was computed from, in words */
  readonly dataUsed!: string[];
  readonly path!: ForecastPointView[];
}

export class TrendEventView extends View {
  readonly at!: Date;
  readonly label!: string;
}

export class LeftOutView extends View {
  readonly reason!: string;
  readonly cycles!: number;
}

/** A daily series with its limit, baseline and forecast. */
export class TrendView extends View {
  readonly quantity!: Quantity;
  readonly title!: string;
  readonly unit!: string;
  /** Local date of the first value; the others follow day by day */
  readonly firstDay!: string | null;
  /** Median of the day; null where there is none */
  @ApiProperty({ type: 'array', items: { type: ['number', 'null'] } }) // the generator takes an array of a union for one of objects
  readonly values!: (number | null)[];
  readonly limit!: number | null;
  readonly limitLabel!: string;
  /** What the limit is measured against */
  readonly baseline!: number | null;
  /** Where the baseline comes from, in words */
  readonly baselineFrom!: string | null;
  /** The baseline was not measured but taken from the record */
  readonly baselineAssumed!: boolean;
  /** null: there is none yet, or it pauses since the skid is not in service; the remarks say which */
  readonly outlook!: OutlookView | null;
  readonly events!: TrendEventView[];
  /** Cycles that were not used, by reason */
  readonly leftOut!: LeftOutView[];
  /** Days whose value was read from gauges by a person: one moment, wider error */
  readonly daysByHand!: number;
  /** What a reader of the drawing must know, in sentences */
  readonly remarks!: string[];
}
