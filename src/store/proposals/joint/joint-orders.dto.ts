import { IsOptional, IsUUID } from 'class-validator';
import { View } from '../../../app/index.js';

export class JointOrdersQuery {
  /** Only for this place */
  @IsOptional()
  @IsUUID()
  placeId?: string;

  /** Only of this supplier */
  @IsOptional()
  @IsUUID()
  supplierId?: string;
}

export class JointLineView extends View {
  readonly lineId!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  /** In units of use */
  readonly quantity!: string;
  readonly unit!: string;
  /** In the supplier’s currency; null: no price is known */
  readonly value!: string | null;
  readonly orderBy!: string | null;
}

/** What would be ordered from one supplier for one place. */
export class JointOrderView extends View {
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly currency!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly due!: JointLineView[];
  /** It pays to order it with what is due, rather than on its own later */
  readonly withIt!: JointLineView[];
  /** Falls due within sixty days, and fills the order up to the supplier’s minimum */
  readonly toMinimum!: JointLineView[];
  readonly valueDue!: string;
  readonly valueOfAll!: string;
  readonly minimumOrder!: string | null;
  /** Missing to the minimum order even with all of it */
  readonly short!: string;
  /** Lines whose price is not known, so that the order is worth more */
  readonly withoutPrice!: number;
}

export class JointOrdersView extends View {
  /** By supplier and place */
  readonly items!: JointOrderView[];
}
