import { PartialType, PickType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsObject, IsOptional, IsUUID, ValidateNested } from 'class-validator';
import { IsDay, IsName, IsText, MayBeLeftOut, PageQuery } from '../../app/index.js';
import { ORDER_STATES, type OrderState } from '../core/orders/order-acts.js';
import { TRADE_UNIT_CODES } from '../core/supply/trade-units.js';
import { IsMoney, IsQuantity } from '../supply/is-decimal.js';

export class OrderLineDto {
  @IsUUID()
  itemId!: string;

  /** In `unit` */
  @IsQuantity()
  quantity!: string;

  /** Left out: the unit of the supplier’s offer, else that in which the item is used */
  @MayBeLeftOut()
  @IsIn(TRADE_UNIT_CODES)
  unit?: string;

  /** Of one `unit`, in the supplier’s currency; left out: as it is offered */
  @MayBeLeftOut()
  @IsMoney()
  price?: string;

  @IsOptional()
  @IsDay()
  neededOn?: string | null;

  /** Why it is bought */
  @MayBeLeftOut()
  @IsText(500)
  reason?: string;

  /** What asked for it */
  @IsOptional()
  @IsUUID()
  proposalId?: string | null;
}

export class OrderDto {
  @IsUUID()
  supplierId!: string;

  /** Where it is delivered to */
  @IsUUID()
  placeId!: string;

  /** To the supplier */
  @MayBeLeftOut()
  @IsText()
  note?: string;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => OrderLineDto)
  lines!: OrderLineDto[];
}

/** Lines that are given take the place of all before. */
export class OrderEditDto extends PartialType(PickType(OrderDto, ['placeId', 'note', 'lines'] as const), { skipNullProperties: false }) {}

export class WantedLineDto {
  @IsUUID()
  itemId!: string;

  /** Where it is to lie */
  @IsUUID()
  placeId!: string;

  /** In units of use */
  @IsQuantity()
  quantity!: string;

  /** From whom; left out: from whom it is asked first */
  @IsOptional()
  @IsUUID()
  supplierId?: string | null;

  /** By which day it must be ordered; left out: now. What is due later is only taken along to reach a supplier’s minimum order */
  @IsOptional()
  @IsDay()
  orderBy?: string | null;

  /** Not due yet, and taken along whenever something else is ordered from its supplier */
  @MayBeLeftOut()
  @IsBoolean()
  comesAlong?: boolean;

  @IsOptional()
  @IsDay()
  neededOn?: string | null;

  @MayBeLeftOut()
  @IsText(500)
  reason?: string;

  @IsOptional()
  @IsUUID()
  proposalId?: string | null;
}

export class WantedLinesDto {
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(500)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => WantedLineDto)
  lines!: WantedLineDto[];
}

export class PromiseDto {
  /** The day on which the supplier says that it will be here */
  @IsDay()
  promisedOn!: string;
}

export class EndOrderDto {
  /** Why; of an order that has come in full it may be empty */
  @IsText(500)
  reason: string = '';
}

export class CancelOrderDto {
  /** Why */
  @IsName(500)
  reason!: string;
}

export class OrdersQuery extends PageQuery {
  @IsOptional()
  @IsIn(ORDER_STATES)
  state?: OrderState;

  @IsOptional()
  @IsUUID()
  supplierId?: string;

  @IsOptional()
  @IsUUID()
  itemId?: string;
}
