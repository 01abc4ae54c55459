import { OmitType } from '@nestjs/swagger';
import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsObject, IsOptional, IsString, IsUUID, Matches, ValidateNested } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../app/index.js';
import { HAND_KINDS, POST_KINDS, type PostKind } from './core/move-problem.js';
import { OWNER_KINDS, type OwnerKind } from './core/pick-lines.js';
import type { PlaceKind } from './places.dto.js';

export class StockMoveDto {
  @IsUUID()
  itemId!: string;

  /** Left out: what expires first; what has no expiry last, in the order in which it came */
  @IsOptional()
  @IsName()
  lot?: string | null;

  /** The part by its serial number, or the set, where that is known */
  @IsOptional()
  @IsUUID()
  partId?: string | null;

  /** A decimal number above zero, in the unit of the item */
  @IsString()
  @Matches(/^\d{1,12}(\.\d{1,6})?$/, { message: 'quantity must be a decimal number with six decimals at most, such as "2.5"' })
  quantity!: string;

  /** Left out: from outside */
  @IsOptional()
  @IsUUID()
  fromPlaceId?: string | null;

  /** Left out: to outside */
  @IsOptional()
  @IsUUID()
  toPlaceId?: string | null;

  /** Left out: ours, where it comes from outside; from a place: ours first, then what a supplier keeps there */
  @IsOptional()
  @IsIn(OWNER_KINDS)
  owner?: OwnerKind | null;

  /** Of a client’s or a supplier’s: which */
  @IsOptional()
  @IsUUID()
  ownerId?: string | null;

  /** Of what is received: what one unit cost, in the reckoning currency */
  @IsOptional()
  @Matches(/^\d{1,10}(\.\d{1,4})?$/, { message: 'unitCost must be a decimal number with four decimals at most, such as "12.5"' })
  unitCost?: string | null;

  /** Of a lot that is received: the last day on which it may be used */
  @IsOptional()
  @IsDay()
  expiresOn?: string | null;
}

export class StockPostDto {
  /** Made by the caller: sent again, it is posted once */
  @IsUUID()
  id!: string;

  @IsIn(HAND_KINDS)
  kind!: (typeof HAND_KINDS)[number];

  /** When it was moved in truth */
  @IsMoment()
  at!: string;

  /** Of a correction and of scrap: why */
  @IsText(500)
  note: string = '';

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => StockMoveDto)
  moves!: StockMoveDto[];

  /** What is not there by the ledger is there in truth: it is entered as found, in the same post */
  @IsBoolean()
  countWasWrong: boolean = false;

  /** Why lots past their expiry may be taken all the same; left out: they are passed over */
  @MayBeLeftOut()
  @IsText(500)
  expiredReason?: string;
}

export class ReversalDto {
  /** Made by the caller: sent again, it is posted once */
  @IsUUID()
  id!: string;

  @IsMoment()
  at!: string;

  /** Why */
  @IsName(500)
  note!: string;
}

export class StockQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  itemId?: string;

  /** What lay there at this moment, by what is entered today */
  @IsOptional()
  @IsMoment()
  at?: string;
}

/** The same without its pages */
export class StockTableQuery extends OmitType(StockQuery, ['limit', 'cursor']) {}

export class MovesQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  itemId?: string;

  @IsOptional()
  @IsUUID()
  jobId?: string;

  @IsOptional()
  @IsIn(POST_KINDS)
  kind?: PostKind;

  /** From this moment on */
  @IsOptional()
  @IsMoment()
  from?: string;

  /** Before this moment */
  @IsOptional()
  @IsMoment()
  to?: string;
}

export class StockLineView extends View {
  readonly placeId!: string;
  readonly placeName!: string;
  readonly placeKind!: PlaceKind;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly lot!: string | null;
  readonly expiresOn!: string | null;
  readonly preserveBy!: string | null;
  /** Why the lot may not be used; empty: it may */
  readonly held!: string;
  readonly owner!: OwnerKind;
  readonly ownerId!: string | null;
  readonly ownerName!: string | null;
  readonly partId!: string | null;
  readonly serialNumber!: string | null;
  /** A decimal number */
  readonly onHand!: string;
}

export class StockPageView extends View {
  readonly items!: StockLineView[];
  readonly next!: string | null;
}

export class StockMoveView extends View {
  readonly id!: string;
  readonly postId!: string;
  readonly kind!: PostKind;
  readonly at!: Date;
  readonly enteredAt!: Date;
  readonly by!: string;
  readonly note!: string;
  readonly jobId!: string | null;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly lot!: string | null;
  readonly partId!: string | null;
  readonly quantity!: string;
  readonly fromPlaceId!: string | null;
  readonly fromPlaceName!: string | null;
  readonly toPlaceId!: string | null;
  readonly toPlaceName!: string | null;
  /** The count was wrong: found, so that the next move could be made */
  readonly correction!: boolean;
  readonly owner!: OwnerKind;
  readonly ownerId!: string | null;
  readonly serialNumber!: string | null;
  /** Of one unit, in the reckoning currency: what was paid, or what it stood at when it left */
  readonly unitCost!: string | null;
  /** The post that this one takes back */
  readonly reverses!: string | null;
}

export class StockMovesPageView extends View {
  readonly items!: StockMoveView[];
  readonly next!: string | null;
}

export class StockPostView extends View {
  readonly id!: string;
  readonly kind!: PostKind;
  readonly at!: Date;
  readonly enteredAt!: Date;
  readonly by!: string;
  readonly note!: string;
  /** Why lots past their expiry were taken; empty: none could be */
  readonly expiredReason!: string;
  readonly reverses!: string | null;
  /** As they were entered: a move that takes from several lots is one entry each */
  readonly moves!: StockMoveView[];
}
