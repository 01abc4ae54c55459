import { IsISO4217CurrencyCode, IsOptional, Matches } from 'class-validator';
import { View } from '../../../app/index.js';

const AMOUNT = /^\d{1,9}(\.\d{1,4})?$/;
const IsAmount = () => Matches(AMOUNT, { message: '$property must be an amount from 0 on as text, with 4 decimals at most, such as "0.55"' });

/** What the work of visits costs the company. All of them, or none: costs then count in hours. */
export class PlanRatesDto {
  /** ISO 4217 */
  @IsISO4217CurrencyCode()
  currency!: string;

  /** Above zero: everything else is weighed against it */
  @IsOptional()
  @IsAmount()
  workHour?: string | null;

  /** Behind the wheel */
  @IsOptional()
  @IsAmount()
  travelHour?: string | null;

  /** On top of the hour */
  @IsOptional()
  @IsAmount()
  overtimeHour?: string | null;

  @IsOptional()
  @IsAmount()
  kilometre?: string | null;

  /** A room, and what is paid for sleeping there */
  @IsOptional()
  @IsAmount()
  nightAway?: string | null;
}

export class PlanRatesView extends View {
  readonly currency!: string;
  /** Null: none is given, and costs of plans count in hours */
  readonly workHour!: string | null;
  readonly travelHour!: string | null;
  readonly overtimeHour!: string | null;
  readonly kilometre!: string | null;
  readonly nightAway!: string | null;
  /** Whether plans weigh by what waiting costs; why not, in words */
  readonly waiting!: string;
  readonly by!: string | null;
  readonly at!: Date | null;
  /** 0: nothing was entered yet */
  readonly version!: number;
}
