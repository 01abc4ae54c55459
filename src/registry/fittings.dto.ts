import { IsInt, IsOptional, IsUUID, Max, Min, ValidateIf } from 'class-validator';
import { IsMoment, IsName, MayBeLeftOut, PageQuery, View } from '../app/index.js';

/** Either a part that is known, or one of an item: by serial number, or a set of so many pieces that are fitted and removed together. */
export class FitPartDto {
  @MayBeLeftOut()
  @IsUUID()
  partId?: string;

  @ValidateIf((fit: FitPartDto) => fit.partId === undefined || fit.itemId !== undefined)
  @IsUUID(undefined, { message: 'itemId must be the UUID of an item where no partId is given' })
  itemId?: string;

  @MayBeLeftOut()
  @IsName()
  serialNumber?: string;

  @MayBeLeftOut()
  @IsInt()
  @Min(1)
  @Max(10_000)
  setCount?: number;

  @MayBeLeftOut()
  @IsName()
  lot?: string;

  /** When; now, where it is left out */
  @MayBeLeftOut()
  @IsMoment()
  at?: string;

  /** Why the part that is there is removed: needed where there is one, which is then replaced */
  @MayBeLeftOut()
  @IsName(200)
  removalReason?: string;
}

export class RemovePartDto {
  /** Why, in words: worn out, failed, changed by the calendar */
  @IsName(200)
  reason!: string;

  /** When; now, where it is left out */
  @MayBeLeftOut()
  @IsMoment()
  at?: string;
}

export class PartsQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  itemId?: string;
}

export class FittingView extends View {
  readonly id!: string;
  readonly positionId!: string;
  readonly partId!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly serialNumber!: string | null;
  readonly setCount!: number;
  readonly lot!: string | null;
  readonly fittedAt!: Date;
  readonly fittedBy!: string;
  readonly removedAt!: Date | null;
  readonly removedBy!: string | null;
  readonly removalReason!: string | null;
}

export class FittingsPageView extends View {
  readonly items!: FittingView[];
  readonly next!: string | null;
}

export class PartView extends View {
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly serialNumber!: string | null;
  readonly setCount!: number;
  readonly lot!: string | null;
  /** Where it is fitted now; null: nowhere */
  readonly positionId!: string | null;
  readonly positionName!: string | null;
  readonly skidId!: string | null;
  readonly skidName!: string | null;
}

export class PartsPageView extends View {
  readonly items!: PartView[];
  readonly next!: string | null;
}
