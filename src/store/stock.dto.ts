import { Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsIn, IsObject, IsOptional, IsString, IsUUID, Matches, ValidateNested } from 'class-validator';
import { IsMoment, IsName, IsText, PageQuery, View } from '../app/index.js';
import { HAND_KINDS, POST_KINDS, type PostKind } from './core/move-problem.js';
import type { PlaceKind } from './places.dto.js';

export class StockMoveDto {
  @IsUUID()
  itemId!: string;

  /** Left out: what has no lot, then the lots in the order in which they came */
  @IsOptional()
  @IsName()
  lot?: string | null;

  /** Which part it is, where that is known */
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
  readonly reverses!: string | null;
  /** As they were entered: a move that takes from several lots is one entry each */
  readonly moves!: StockMoveView[];
}
