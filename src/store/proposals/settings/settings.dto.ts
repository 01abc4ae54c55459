import { IsOptional, IsUUID } from 'class-validator';
import { PageQuery, View } from '../../../app/index.js';
import { StockSettingView } from '../reorder-views.dto.js';

export class StockSettingsQuery extends PageQuery {
  @IsOptional()
  @IsUUID()
  itemId?: string;

  @IsOptional()
  @IsUUID()
  placeId?: string;
}

/** How one item is kept at one place, by name. */
export class KeptItemView extends StockSettingView {
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly placeName!: string;
}

export class StockSettingsPageView extends View {
  readonly items!: KeptItemView[];
  readonly next!: string | null;
}
