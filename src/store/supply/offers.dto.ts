import { OmitType, PartialType } from '@nestjs/swagger';
import { IsIn, IsInt, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsDay, IsText, MayBeLeftOut, View } from '../../app/index.js';
import { RegistryQuery } from '../../registry/index.js';
import { TRADE_UNIT_CODES } from '../core/supply/trade-units.js';
import { IsDecimal, IsMoney, IsQuantity } from './is-decimal.js';

export class OfferDto {
  @IsUUID()
  itemId!: string;

  @IsUUID()
  supplierId!: string;

  /** By which the supplier calls the item */
  @MayBeLeftOut()
  @IsText(80)
  supplierCode?: string;

  /** A code of UN/CEFACT Recommendation 20, or X and a package code of Recommendation 21, such as XIH for a plastic drum */
  @IsIn(TRADE_UNIT_CODES)
  purchaseUnit!: string;

  /** Units of use in one unit of purchase; may be left out where the units say it themselves */
  @MayBeLeftOut()
  @IsQuantity()
  unitsPerPurchase?: string;

  /** Sold in multiples of so many units of purchase */
  @MayBeLeftOut()
  @IsQuantity()
  pack?: string;

  /** The least that is sold, in units of purchase */
  @MayBeLeftOut()
  @IsDecimal({ decimals: 6 })
  minimumQuantity?: string;

  /** From order to delivery where it differs from what the supplier states for all */
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(730)
  leadDays?: number | null;

  /** The offer with the lowest is asked first */
  @MayBeLeftOut()
  @IsInt()
  @Min(1)
  @Max(99)
  rank?: number;

  /** Of one unit of purchase, in the supplier’s currency */
  @MayBeLeftOut()
  @IsMoney()
  price?: string;

  /** The day from which the price holds; left out: today */
  @MayBeLeftOut()
  @IsDay()
  priceFrom?: string;

  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class OfferEditDto extends PartialType(OmitType(OfferDto, ['itemId', 'supplierId']), { skipNullProperties: false }) {}

export class OffersQuery extends RegistryQuery {
  @IsOptional()
  @IsUUID()
  itemId?: string;

  @IsOptional()
  @IsUUID()
  supplierId?: string;
}

export class OfferPriceView extends View {
  readonly fromDay!: string;
  readonly price!: string;
  readonly by!: string;
  readonly at!: Date;
}

export class OfferView extends View {
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  /** In which the item is kept and used */
  readonly useUnit!: string;
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly currency!: string;
  readonly supplierCode!: string;
  readonly purchaseUnit!: string;
  readonly unitsPerPurchase!: string;
  readonly pack!: string;
  readonly minimumQuantity!: string;
  /** Of the offer, else of the supplier */
  readonly leadDays!: number | null;
  /** Whether the lead time is the offer’s own */
  readonly ownLeadDays!: boolean;
  readonly rank!: number;
  /** Of today; null: none was entered */
  readonly price!: string | null;
  /** The latest first */
  readonly prices!: OfferPriceView[];
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class OffersPageView extends View {
  readonly items!: OfferView[];
  readonly next!: string | null;
}
