import { Transform, Type } from 'class-transformer';
import {
  ArrayMaxSize,
  ArrayMinSize,
  IsArray,
  IsBoolean,
  IsIn,
  IsInt,
  IsObject,
  IsOptional,
  IsString,
  IsUUID,
  Matches,
  Max,
  Min,
  ValidateNested,
} from 'class-validator';
import { IsMoment, IsName, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';
import type { OwnerKind } from '../core/pick-lines.js';

export const COUNT_STATES = ['open', 'closed', 'dropped'] as const;
export type CountState = (typeof COUNT_STATES)[number];

export class CountDto {
  @IsUUID()
  placeId!: string;

  /** Whoever counts does not see what the ledger says */
  @IsBoolean()
  blind: boolean = true;

  /** Lines on a page of the list */
  @IsInt()
  @Min(1)
  @Max(200)
  linesOnPage: number = 20;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class LookDto {
  /** The line that was looked at; left out: something that is not on the list (itemId) */
  @IsOptional()
  @IsUUID()
  lineId?: string | null;

  @IsOptional()
  @IsUUID()
  itemId?: string | null;

  @IsOptional()
  @IsName()
  lot?: string | null;

  /** How much lies there: a decimal number, 0 where nothing does */
  @IsString()
  @Matches(/^\d{1,12}(\.\d{1,6})?$/, { message: 'counted must be a decimal number with six decimals at most, such as "2.5" or "0"' })
  counted!: string;

  /** When it was counted; left out: now */
  @IsOptional()
  @IsMoment()
  at?: string;
}

export class LooksDto {
  @IsArray()
  @ArrayMinSize(1)
  @ArrayMaxSize(200)
  @IsObject({ each: true })
  @ValidateNested({ each: true })
  @Type(() => LookDto)
  looks!: LookDto[];
}

export class CloseCountDto {
  /** Made by the caller: the id of the post of the corrections */
  @IsUUID()
  id!: string;

  @MayBeLeftOut()
  @IsText(500)
  note?: string;
}

export class CountsQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  placeId?: string;

  @IsOptional()
  @IsIn(COUNT_STATES)
  state?: CountState;
}

export class LinesQuery {
  /** From 1 on; left out: all pages */
  @IsOptional()
  @Type(() => Number)
  @IsInt()
  @Min(1)
  @Max(100_000)
  page?: number;

  /** true: only what nobody has looked at, or what asks for another look */
  @IsOptional()
  @Transform(({ value }) => (value === 'true' ? true : value === 'false' ? false : value))
  @IsBoolean()
  toDo?: boolean;
}

export class CountLineView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly page!: number;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly lot!: string | null;
  readonly owner!: OwnerKind;
  readonly ownerId!: string | null;
  readonly partId!: string | null;
  readonly serialNumber!: string | null;
  /** open: nobody has looked; off: another look is asked for; settled: two looks found the same difference */
  readonly standing!: 'open' | 'agrees' | 'off' | 'settled';
  readonly looks!: number;
  /** Of the last look; null while it is counted blind */
  readonly counted!: string | null;
  /** By the ledger at the moment of the last look; null while it is counted blind */
  readonly book!: string | null;
}

export class CountView extends View {
  readonly id!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly state!: CountState;
  readonly blind!: boolean;
  readonly linesOnPage!: number;
  readonly pages!: number;
  readonly note!: string;
  readonly startedAt!: Date;
  readonly startedBy!: string;
  readonly endedAt!: Date | null;
  readonly endedBy!: string | null;
  /** The post of the corrections; null: there were none */
  readonly postId!: string | null;
}

export class CountDetailView extends CountView {
  readonly lines!: CountLineView[];
}

export class CountsPageView extends View {
  readonly items!: CountView[];
  readonly next!: string | null;
}
