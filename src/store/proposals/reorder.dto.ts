import { Transform } from 'class-transformer';
import { IsBoolean, IsIn, IsInt, IsNumber, IsOptional, IsString, IsUUID, Matches, Max, Min } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, PageQuery } from '../../app/index.js';

/** What of the list is shown. */
export const SHOWN = ['to do', 'accepted', 'dismissed', 'idle', 'all'] as const;
export type Shown = (typeof SHOWN)[number];

export const SERVICES = ['fill', 'jobs', 'cost'] as const;
export const CRITICALITIES = ['stops the skid', 'hampers the skid', 'can wait'] as const;

const QUANTITY = /^(?=.*[1-9])\d{1,12}(\.\d{1,6})?$/;
const LEVEL = /^\d{1,12}(\.\d{1,6})?$/;
const MONEY = /^(?=.*[1-9])\d{1,10}(\.\d{1,4})?$/;

export class ReorderQuery extends PageQuery {
  /** to do: to be bought or brought, and not decided yet; idle: dead and slow stock */
  @IsOptional()
  @IsIn(SHOWN)
  show: Shown = 'to do';

  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  supplierId?: string;

  /** To be ordered by this day */
  @IsOptional()
  @IsDay()
  orderBy?: string;
}

export class ReorderTableQuery {
  @IsOptional()
  @IsIn(SHOWN)
  show: Shown = 'to do';

  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  supplierId?: string;
}

export class AcceptDto {
  /** In units of use; as proposed where left out */
  @IsOptional()
  @IsString()
  @Matches(QUANTITY, { message: 'quantity must be a decimal number above zero with six decimals at most, such as "2.5"' })
  quantity?: string | null;

  /** From whom; who is asked first where left out */
  @IsOptional()
  @IsUUID()
  supplierId?: string | null;

  @MayBeLeftOut()
  @IsText(500)
  reason?: string;
}

export class ChangeDto {
  @IsString()
  @Matches(QUANTITY, { message: 'quantity must be a decimal number above zero with six decimals at most, such as "2.5"' })
  quantity!: string;

  @IsOptional()
  @IsUUID()
  supplierId?: string | null;

  @IsName(500)
  reason!: string;
}

export class DismissDto {
  @IsName(500)
  reason!: string;

  /** Look at it again after this day; else when things change */
  @IsOptional()
  @IsDay()
  until?: string | null;
}

export class OrderAcceptedDto {
  /** Only of this supplier */
  @IsOptional()
  @IsUUID()
  supplierId?: string | null;

  /** Only for this place */
  @IsOptional()
  @IsUUID()
  placeId?: string | null;

  /** Takes along what it pays to order with it, and what reaches a supplier’s minimum order */
  @MayBeLeftOut()
  @IsBoolean()
  takeAlong?: boolean;
}

const Empty = () => Transform(({ value }) => (value === '' ? null : value));

export class StockSettingDto {
  /** fill: share of need served at once; jobs: share of jobs that find all they take; cost: what is cheapest. Null: fill */
  @IsOptional()
  @IsIn(SERVICES)
  service?: (typeof SERVICES)[number] | null;

  /** 0.5 to 0.9999; null: by how critical the item is */
  @IsOptional()
  @IsNumber()
  @Min(0.5)
  @Max(0.9999)
  asked?: number | null;

  /** What a missing piece costs a month, in the reckoning currency */
  @IsOptional()
  @Empty()
  @Matches(MONEY, { message: 'shortCost must be an amount above zero with four decimals at most, such as "250"' })
  shortCost?: string | null;

  /** 0: at every move; null: as the item says */
  @IsOptional()
  @IsInt()
  @Min(0)
  @Max(366)
  reviewDays?: number | null;

  /** Must always lie there */
  @IsOptional()
  @Empty()
  @Matches(LEVEL, { message: 'minimum must be a decimal number with six decimals at most, such as "2"' })
  minimum?: string | null;

  /** Never more than so many */
  @IsOptional()
  @Empty()
  @Matches(LEVEL, { message: 'maximum must be a decimal number with six decimals at most, such as "10"' })
  maximum?: string | null;

  @IsOptional()
  @IsIn(CRITICALITIES)
  criticality?: (typeof CRITICALITIES)[number] | null;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class SiteSupplyDto {
  /** The store or van that the work at the site is supplied from; null: the store that was entered first */
  @IsOptional()
  @IsUUID()
  placeId?: string | null;
}
