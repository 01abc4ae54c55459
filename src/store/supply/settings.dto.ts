import { IsISO4217CurrencyCode, IsOptional } from 'class-validator';
import { IsDay, View } from '../../app/index.js';
import { IsDecimal, IsMoney } from './is-decimal.js';

export class StoreSettingsDto {
  /** ISO 4217: all costs are reckoned in it */
  @IsISO4217CurrencyCode()
  reckoningCurrency!: string;

  /** An order worth more, in the reckoning currency, is approved by a manager; left out: a storekeeper approves any */
  @IsOptional()
  @IsMoney()
  managerApprovesAbove?: string | null;
}

export class StoreSettingsView extends View {
  readonly reckoningCurrency!: string;
  readonly managerApprovesAbove!: string | null;
  readonly version!: number;
}

export class CurrencyRateDto {
  /** ISO 4217 */
  @IsISO4217CurrencyCode()
  currency!: string;

  /** From this day on, until the next one that is entered */
  @IsDay()
  fromDay!: string;

  /** What one unit of the currency is worth in the reckoning currency */
  @IsDecimal({ aboveZero: true, decimals: 6 })
  rate!: string;
}

export class CurrencyRateView extends View {
  readonly currency!: string;
  readonly fromDay!: string;
  readonly rate!: string;
  readonly by!: string;
  readonly at!: Date;
}

export class CurrencyRatesView extends View {
  /** By currency, the latest first */
  readonly items!: CurrencyRateView[];
}
