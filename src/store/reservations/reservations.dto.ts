import { OmitType } from '@nestjs/swagger';
import { Transform } from 'class-transformer';
import { IsBoolean, IsOptional, IsString, IsUUID, Matches } from 'class-validator';
import { IsDay, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';

export class AvailableQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  itemId?: string;
}

/** The same without its pages */
export class AvailableTableQuery extends OmitType(AvailableQuery, ['limit', 'cursor']) {}

/** What may be used of an item at a place, and what of it is kept back. */
export class AvailableView extends View {
  readonly placeId!: string;
  readonly placeName!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  /** Neither held nor past its day, and no client’s */
  readonly onHand!: string;
  readonly reserved!: string;
  /** On hand and not reserved */
  readonly available!: string;
  /** Reserved and not there */
  readonly short!: string;
  /** Ordered for the place and not there yet, drafts among it */
  readonly onOrder!: string;
  /** From another place */
  readonly onTheWay!: string;
}

export class AvailablePageView extends View {
  readonly items!: AvailableView[];
  readonly next!: string | null;
}

export class ReservationsQuery extends PageQuery {
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
  @IsUUID()
  visitId?: string;

  /** true: those that are not over; false: those that are */
  @IsOptional()
  @Transform(({ value }) => (value === 'true' ? true : value === 'false' ? false : value))
  @IsBoolean()
  open?: boolean;
}

export class ReservationDto {
  @IsUUID()
  itemId!: string;

  /** Where it is kept back */
  @IsUUID()
  placeId!: string;

  /** For which job; or leave it out and say the visit */
  @IsOptional()
  @IsUUID()
  jobId?: string | null;

  @IsOptional()
  @IsUUID()
  visitId?: string | null;

  /** A decimal number above zero, in the unit of the item */
  @IsString()
  @Matches(/^(?=.*[1-9])\d{1,12}(\.\d{1,6})?$/, { message: 'quantity must be a decimal number above zero with six decimals at most, such as "2.5"' })
  quantity!: string;

  @IsDay()
  neededOn!: string;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class ReservationView extends View {
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly jobId!: string | null;
  readonly visitId!: string | null;
  readonly quantity!: string;
  /** Of it, what was taken since */
  readonly taken!: string;
  /** Of the rest, what is there for it: whoever needs it first is served first */
  readonly covered!: string;
  readonly neededOn!: string;
  readonly note!: string;
  readonly madeAt!: Date;
  readonly madeBy!: string;
  readonly endedAt!: Date | null;
  readonly outcome!: 'taken' | 'released' | null;
}

export class ReservationsPageView extends View {
  readonly items!: ReservationView[];
  readonly next!: string | null;
}
