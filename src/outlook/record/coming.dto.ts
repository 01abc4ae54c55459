import { IsIn, IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../../app/index.js';
import type { ModuleLimit } from '../core/modules/limit-of-module.js';
import { FORECAST_KINDS, type ForecastKind } from './record.dto.js';

export class ComingQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  clientId?: string;

  /** Which limit is forecast */
  @IsOptional()
  @IsIn(FORECAST_KINDS)
  limitKind?: ForecastKind;
}

/** One of several limits that make a forecast together. */
export class LimitOfPartView extends View {
  readonly limit!: ModuleLimit;
  readonly kind!: 'outlook' | 'limit-met' | 'too-little-data';
  /** Whether it is in the forecast: what rests on common practice alone is told beside it */
  readonly counts!: boolean;
  /** How likely it comes before the others that count, from 0 to 1 */
  readonly first!: number;
  readonly p10On!: string | null;
  readonly p50On!: string | null;
  readonly p90On!: string | null;
  /** What is on record of it */
  readonly said!: string;
}

/** The present forecast of one limit. */
export class ComingView extends View {
  readonly skidId!: string;
  readonly skidName!: string;
  readonly siteName!: string;
  readonly clientName!: string;
  /** What the limit is of: the membranes, or the position of the part */
  readonly subject!: string;
  readonly limitKind!: ForecastKind;
  readonly kind!: 'outlook' | 'limit-met' | 'too-little-data';
  /** 1 in 10 that the limit is met by this day; null: beyond two years, or not known */
  readonly p10On!: string | null;
  readonly p50On!: string | null;
  /** 9 in 10 that the limit is met by this day */
  readonly p90On!: string | null;
  /** Local date of the latest reading that the forecast knew */
  readonly originOn!: string;
  readonly reason!: string;
  /** Of a module: its age, its closed fibres and its contact with free chlorine, each by itself */
  readonly limits!: LimitOfPartView[];
  /** How sure, in words: the width of the range beside the time ahead */
  readonly howSure!: string;
  /** What waiting costs, in words; null: nothing of it is for the caller */
  readonly waiting!: string | null;
}

export class ComingPageView extends View {
  readonly items!: ComingView[];
  readonly next!: string | null;
  readonly total!: number;
}
