import { PartialType } from '@nestjs/swagger';
import { IsEmail, IsInt, IsISO4217CurrencyCode, IsOptional, Max, MaxLength, Min } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../../app/index.js';
import { IsMoney } from './is-decimal.js';

const MOST_LEAD_DAYS = 730;

export class SupplierDto {
  @IsName()
  name!: string;

  /** ISO 4217, such as EUR: of its prices */
  @IsISO4217CurrencyCode()
  currency!: string;

  /** Where orders go */
  @IsOptional()
  @IsEmail()
  @MaxLength(254)
  email?: string | null;

  /** People and telephone numbers, one a line */
  @MayBeLeftOut()
  @IsText()
  contacts?: string;

  /** By which the supplier knows us */
  @MayBeLeftOut()
  @IsText(60)
  customerNumber?: string;

  /** From order to delivery, as the supplier states it */
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(MOST_LEAD_DAYS)
  leadDays?: number | null;

  /** Below which it takes no order, in its currency */
  @IsOptional()
  @IsMoney()
  minimumOrder?: string | null;

  /** The day on which orders to it are collected: 1 Monday to 7 Sunday */
  @IsOptional()
  @IsInt()
  @Min(1)
  @Max(7)
  orderWeekday?: number | null;

  /** What one order costs us, in the currency that costs are reckoned in */
  @IsOptional()
  @IsMoney()
  orderCost?: string | null;

  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class SupplierEditDto extends PartialType(SupplierDto, { skipNullProperties: false }) {}

export class SupplierView extends View {
  readonly id!: string;
  readonly name!: string;
  readonly currency!: string;
  readonly email!: string | null;
  readonly contacts!: string;
  readonly customerNumber!: string;
  readonly leadDays!: number | null;
  readonly minimumOrder!: string | null;
  readonly orderWeekday!: number | null;
  readonly orderCost!: string | null;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class SuppliersPageView extends View {
  readonly items!: SupplierView[];
  readonly next!: string | null;
}
