import { Transform, Type } from 'class-transformer';
import { ArrayMaxSize, ArrayMinSize, IsArray, IsBoolean, IsObject, IsOptional, IsString, IsUUID, Matches, ValidateNested } from 'class-validator';
import { IsDay, IsMoment, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';
import type { OwnerKind } from '../core/pick-lines.js';

const ABOVE_ZERO = /^(?=.*[1-9])\d{1,12}(\.\d{1,6})?$/;
const QUANTITY_WORDS = { message: 'quantity must be a decimal number above zero with six decimals at most, such as "2.5"' };

export class SendLineDto {
  @IsUUID()
  itemId!: string;

  /** Left out: what expires first */
  @IsOptional()
  @IsName()
  lot?: string | null;

  @IsOptional()
  @IsUUID()
  partId?: string | null;

  @IsString()
  @Matches(ABOVE_ZERO, QUANTITY_WORDS)
  quantity!: string;
}

export class SendDto {
  /** Made by the caller, and the id of the transfer: sent again, it goes out once */
  @IsUUID()
  id!: string;

  @IsUUID()
  fromPlaceId!: string;

  @IsUUID()
  toPlaceId!: string;

  /** When it left */
  @IsMoment()
  at!: string;

  @IsOptional()
  @IsDay()
  expectedOn?: string | null;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;

  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => SendLineDto)
  lines!: SendLineDto[];

  /** Why lots past their expiry may go along; left out: they are passed over */
  @MayBeLeftOut()
  @IsText(500)
  expiredReason?: string;
}

export class ArriveLineDto {
  @IsUUID()
  itemId!: string;

  /** Left out: what has no lot */
  @IsOptional()
  @IsName()
  lot?: string | null;

  @IsOptional()
  @IsUUID()
  partId?: string | null;

  /** Left out: ours */
  @IsOptional()
  @IsUUID()
  ownerId?: string | null;

  /** What came of it */
  @IsString()
  @Matches(ABOVE_ZERO, QUANTITY_WORDS)
  quantity!: string;
}

export class ArriveDto {
  /** Made by the caller: sent again, it arrives once */
  @IsUUID()
  id!: string;

  @IsMoment()
  at!: string;

  /** Why what did not come is given up, or where what was not sent comes from */
  @MayBeLeftOut()
  @IsText(500)
  note?: string;

  /** What did not come stays out of it */
  @IsArray()
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => ArriveLineDto)
  lines!: ArriveLineDto[];

  /** Nothing more is awaited: what has not come is entered as lost */
  @IsBoolean()
  giveUpRest: boolean = false;

  /** More came than was sent: the rest is entered as found */
  @IsBoolean()
  keepMore: boolean = false;
}

export class TransfersQuery extends PageQuery {
  /** From or to this place */
  @IsOptional()
  @IsUUID()
  placeId?: string;

  /** true: goods are still on the way */
  @IsOptional()
  @Transform(({ value }) => (value === 'true' ? true : value === 'false' ? false : value))
  @IsBoolean()
  open?: boolean;
}

export class TransferLineView extends View {
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly lot!: string | null;
  readonly partId!: string | null;
  readonly serialNumber!: string | null;
  readonly owner!: OwnerKind;
  readonly ownerId!: string | null;
  readonly sent!: string;
  readonly arrived!: string;
  readonly lost!: string;
  readonly onTheWay!: string;
}

export class TransferView extends View {
  readonly id!: string;
  readonly fromPlaceId!: string;
  readonly fromPlaceName!: string;
  readonly toPlaceId!: string;
  readonly toPlaceName!: string;
  readonly sentAt!: Date;
  readonly sentBy!: string;
  readonly expectedOn!: string | null;
  readonly note!: string;
  /** All has come, or the rest was given up */
  readonly endedAt!: Date | null;
  readonly lines!: TransferLineView[];
}

export class TransfersPageView extends View {
  readonly items!: TransferView[];
  readonly next!: string | null;
}
