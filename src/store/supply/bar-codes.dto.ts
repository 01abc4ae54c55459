import { IsOptional, IsUUID } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, PageQuery, View } from '../../app/index.js';
import { IsQuantity } from './is-decimal.js';

export class BarCodeDto {
  /** As the scanner sends it: a trade item number, GS1 element strings, or another text */
  @IsName(120)
  code!: string;

  @IsUUID()
  itemId!: string;

  /** Units of use that one scan stands for; left out: one */
  @MayBeLeftOut()
  @IsQuantity()
  quantity?: string;

  @MayBeLeftOut()
  @IsText(200)
  note?: string;
}

export class BarCodesQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  itemId?: string;
}

export class ScanQuery {
  /** As the scanner sends it */
  @IsName(200)
  text!: string;
}

export class BarCodeView extends View {
  readonly id!: string;
  readonly code!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly quantity!: string;
  readonly note!: string;
  readonly by!: string;
  readonly at!: Date;
}

export class BarCodesPageView extends View {
  readonly items!: BarCodeView[];
  readonly next!: string | null;
}

export class ScanView extends View {
  /** By which items are known; null: the scan names none */
  readonly code!: string | null;
  /** Null: no item has this code, nor is it an item’s own */
  readonly item!: BarCodeView | null;
  readonly lot!: string | null;
  readonly serial!: string | null;
  readonly expiresOn!: string | null;
  readonly bestBefore!: string | null;
  /** Pieces or packs, where the scan says so */
  readonly count!: number | null;
}
