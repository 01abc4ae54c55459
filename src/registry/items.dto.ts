import { PartialType } from '@nestjs/swagger';
import { IsIn, IsOptional, Matches } from 'class-validator';
import { IsName, IsText, MayBeLeftOut, View } from '../app/index.js';
import { ITEM_KINDS, type ItemKind } from '../shared/item-kinds.js';
import { RegistryQuery } from './registry.dto.js';

export class ItemDto {
  /** By which people call it on labels and orders */
  @IsName(60)
  code!: string;

  @IsName()
  name!: string;

  @IsIn(ITEM_KINDS)
  kind!: ItemKind;

  /** Unit of use: a code of UN/CEFACT Recommendation 20, such as C62 (one), LTR, KGM or MTR */
  @MayBeLeftOut()
  @Matches(/^[A-Z0-9]{2,3}$/, { message: 'unit must be a code of UN/CEFACT Recommendation 20, such as C62 (one), LTR, KGM or MTR' })
  unit?: string;

  /** Clients read it too */
  @MayBeLeftOut()
  @IsText()
  note?: string;
}

export class ItemEditDto extends PartialType(ItemDto, { skipNullProperties: false }) {}

export class ItemsQuery extends RegistryQuery {
  @IsOptional()
  @IsIn(ITEM_KINDS)
  kind?: ItemKind;
}

export class ItemView extends View {
  readonly id!: string;
  readonly code!: string;
  readonly name!: string;
  readonly kind!: ItemKind;
  readonly unit!: string;
  readonly note!: string;
  readonly endedOn!: string | null;
  readonly version!: number;
}

export class ItemsPageView extends View {
  readonly items!: ItemView[];
  readonly next!: string | null;
}
