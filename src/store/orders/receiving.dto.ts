import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsObject, IsOptional, IsUUID, ValidateNested } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut } from '../../app/index.js';
import { OWNER_KINDS, type OwnerKind } from '../core/pick-lines.js';
import { TRADE_UNIT_CODES } from '../core/supply/trade-units.js';
import { IsQuantity } from '../supply/is-decimal.js';

export const OUTCOMES = ['good', 'damaged', 'wrong'] as const;
export type Outcome = (typeof OUTCOMES)[number];

export class ReceiptLineDto {
  @IsUUID()
  lineId!: string;

  @IsIn(OUTCOMES)
  outcome: Outcome = 'good';

  /** In `unit` */
  @IsQuantity()
  quantity!: string;

  /** Left out: that in which the item is used */
  @MayBeLeftOut()
  @IsIn(TRADE_UNIT_CODES)
  unit?: string;

  /** Where it was put. Left out: what is good, to where the order goes; what is damaged or wrong was not taken in */
  @IsOptional()
  @IsUUID()
  placeId?: string | null;

  /** Of a wrong delivery that was taken in: what came instead */
  @IsOptional()
  @IsUUID()
  itemId?: string | null;

  @IsOptional()
  @IsName()
  lot?: string | null;

  @IsOptional()
  @IsDay()
  expiresOn?: string | null;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class ReceiptDto {
  /** Made by the caller: sent again, it is received once */
  @IsUUID()
  id!: string;

  /** When it came */
  @IsMoment()
  at!: string;

  /** The supplier’s number of the delivery */
  @IsText(120)
  deliveryNote: string = '';

  @IsText(500)
  note: string = '';

  /** Whose it is. Left out: ours; `supplier` is who the order is with, and is paid when it is used */
  @IsOptional()
  @IsIn(OWNER_KINDS)
  owner?: OwnerKind | null;

  /** Of a client’s: which */
  @IsOptional()
  @IsUUID()
  ownerId?: string | null;

  /** More than was ordered came, and is kept */
  @IsBoolean()
  keepMore: boolean = false;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ReceiptLineDto)
  lines!: ReceiptLineDto[];
}

export class TakeBackDto {
  /** Made by the caller: the id of the stock post that takes it back */
  @IsUUID()
  id!: string;

  /** Why */
  @IsName(500)
  reason!: string;
}

export class ReturnLineDto {
  @IsUUID()
  lineId!: string;

  /** As what it was received */
  @IsIn(OUTCOMES)
  outcome!: Outcome;

  /** Of what came wrongly: the item that came */
  @IsOptional()
  @IsUUID()
  itemId?: string | null;

  /** In units of use */
  @IsQuantity()
  quantity!: string;

  /** Where it lies until then */
  @IsUUID()
  placeId!: string;

  @IsOptional()
  @IsName()
  lot?: string | null;

  /** The supplier sends it anew; else it is paid back */
  @IsBoolean()
  replaced: boolean = true;
}

export class SupplierReturnDto {
  /** Made by the caller: sent again, it is returned once */
  @IsUUID()
  id!: string;

  @IsMoment()
  at!: string;

  /** Why, and what was agreed */
  @IsName(500)
  reason!: string;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ReturnLineDto)
  lines!: ReturnLineDto[];
}
