import { IsInt, IsOptional, IsUUID, Max, Min } from 'class-validator';
import { IsDay, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';

export class LotsQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  itemId?: string;

  /** What must be used, or preserved anew, by this day, and lies somewhere */
  @IsOptional()
  @IsDay()
  by?: string;
}

export class LotEditDto {
  /** The last day on which it may be used */
  @IsOptional()
  @IsDay()
  expiresOn?: string | null;

  /** Why it may not be used, wherever it lies; empty: it may */
  @MayBeLeftOut()
  @IsText(500)
  held?: string;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class PreservedDto {
  /** The day on which it was preserved anew */
  @IsDay()
  on!: string;

  /** Left out: as long as the preservative of the item lasts */
  @IsOptional()
  @IsDay()
  by?: string | null;
}

export class KeepingDto {
  /** Kept in preservative, which lasts so many days */
  @IsInt()
  @Min(1)
  @Max(3660)
  preserveDays!: number;
}

export class KeepingView extends View {
  readonly itemId!: string;
  readonly preserveDays!: number;
}

export class LotView extends View {
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly code!: string;
  readonly receivedOn!: string | null;
  readonly expiresOn!: string | null;
  readonly preservedOn!: string | null;
  /** To be used or preserved anew by this day */
  readonly preserveBy!: string | null;
  readonly held!: string;
  readonly note!: string;
  /** At all places */
  readonly onHand!: string;
  /** Where it lies, by name */
  readonly places!: string[];
  readonly version!: number;
}

export class LotsPageView extends View {
  readonly items!: LotView[];
  readonly next!: string | null;
}

export class ValueQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsUUID()
  itemId?: string;
}

/** What our stock of an item at a place is worth, in the reckoning currency. */
export class ValueView extends View {
  readonly placeId!: string;
  readonly placeName!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly onHand!: string;
  /** Of one unit; null: nobody said what it cost */
  readonly average!: string | null;
  readonly value!: string | null;
  /** Each lot at what it cost, and at the average where nobody said */
  readonly valueByLot!: string | null;
}

export class ValuePageView extends View {
  readonly currency!: string;
  readonly items!: ValueView[];
  readonly next!: string | null;
}
