import { View } from '../../app/index.js';
import type { OrderState } from '../core/orders/order-acts.js';
import type { Outcome } from './receiving.dto.js';

export const ARRIVALS = ['nothing', 'part', 'all'] as const;
export type Arrival = (typeof ARRIVALS)[number];

export class OrderLineView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly supplierCode!: string;
  /** In which it is ordered */
  readonly unit!: string;
  readonly quantity!: string;
  readonly price!: string | null;
  readonly neededOn!: string | null;
  readonly reason!: string;
  readonly proposalId!: string | null;
  /** In which it is used; all that follows is in it */
  readonly useUnit!: string;
  readonly unitsPerPurchase!: string;
  readonly ordered!: string;
  readonly good!: string;
  readonly damaged!: string;
  readonly wrong!: string;
  /** Still to come */
  readonly open!: string;
  /** More than was ordered */
  readonly over!: string;
}

export class ReceiptLineView extends View {
  readonly lineId!: string;
  readonly outcome!: Outcome;
  readonly itemId!: string | null;
  readonly quantity!: string;
  readonly placeId!: string | null;
  readonly lot!: string | null;
  readonly expiresOn!: string | null;
  readonly note!: string;
}

export class ReceiptView extends View {
  readonly id!: string;
  readonly at!: Date;
  readonly by!: string;
  readonly deliveryNote!: string;
  readonly note!: string;
  /** What it put into stock */
  readonly postId!: string | null;
  readonly takenBackAt!: Date | null;
  readonly lines!: ReceiptLineView[];
}

export class ReturnLineView extends View {
  readonly lineId!: string;
  readonly outcome!: Outcome;
  readonly itemId!: string;
  readonly quantity!: string;
  readonly placeId!: string;
  readonly lot!: string | null;
  readonly replaced!: boolean;
}

export class SupplierReturnView extends View {
  readonly id!: string;
  readonly at!: Date;
  readonly by!: string;
  readonly reason!: string;
  readonly lines!: ReturnLineView[];
}

export class OrderChangeView extends View {
  readonly at!: Date;
  readonly by!: string;
  readonly what!: string;
  readonly detail!: string;
}

export class OrderView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly supplierEmail!: string | null;
  readonly customerNumber!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly state!: OrderState;
  readonly arrived!: Arrival;
  readonly currency!: string;
  /** What one unit of the currency was worth when it was sent */
  readonly rate!: string | null;
  /** Of the lines that have a price */
  readonly value!: string;
  readonly withoutPrice!: number;
  readonly note!: string;
  readonly promisedOn!: string | null;
  readonly madeAt!: Date;
  readonly madeBy!: string;
  readonly approvedAt!: Date | null;
  readonly approvedBy!: string | null;
  readonly sentAt!: Date | null;
  readonly sentBy!: string | null;
  readonly sentHow!: string | null;
  readonly endedAt!: Date | null;
  readonly endedBy!: string | null;
  readonly endReason!: string;
  readonly lines!: OrderLineView[];
  readonly receipts!: ReceiptView[];
  readonly returns!: SupplierReturnView[];
  /** Who did what, the first act first */
  readonly changes!: OrderChangeView[];
  readonly version!: number;
}

export class OrderInListView extends View {
  readonly id!: string;
  readonly no!: number;
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly state!: OrderState;
  readonly arrived!: Arrival;
  readonly currency!: string;
  readonly value!: string;
  readonly withoutPrice!: number;
  readonly lines!: number;
  readonly madeAt!: Date;
  readonly sentAt!: Date | null;
  readonly promisedOn!: string | null;
  /** The first day on which something of it is needed */
  readonly neededOn!: string | null;
  readonly version!: number;
}

export class OrdersPageView extends View {
  readonly items!: OrderInListView[];
  readonly next!: string | null;
}

export class AwaitedOrderView extends View {
  readonly order!: OrderInListView;
  /** The day by which it should be here */
  readonly expectedOn!: string;
  /** By whose word */
  readonly by!: 'promise' | 'stated' | 'learnt';
  /** 0: not late */
  readonly lateDays!: number;
  /** Expected so many days after it is needed; null: nobody said when */
  readonly afterNeedDays!: number | null;
  /** Probability, from 0 to 1, that all of it is here within a week; null: by what is known it should long be */
  readonly withinWeek!: number | null;
}

export class AwaitedOrdersView extends View {
  /** The latest first, then what is needed soonest */
  readonly items!: AwaitedOrderView[];
}

export class LetterView extends View {
  readonly to!: string | null;
  readonly subject!: string;
  readonly text!: string;
}

export class NotOrderedView extends View {
  /** Of the lines that were asked for, from 0 */
  readonly line!: number;
  readonly why!: string;
}

export class DraftsView extends View {
  readonly orders!: OrderInListView[];
  /** What is missing to the supplier’s minimum order, by the order’s id */
  readonly short!: DraftShortView[];
  readonly leftOut!: NotOrderedView[];
}

export class DraftShortView extends View {
  readonly orderId!: string;
  readonly short!: string;
}

export class LeadTimeView extends View {
  readonly itemId!: string;
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly statedDays!: number | null;
  readonly p10!: number;
  readonly p50!: number;
  readonly p90!: number;
  readonly meanDays!: number;
  /** Order lines that came, and that are awaited, within three years */
  readonly came!: number;
  readonly awaited!: number;
  /** Probability of each number of days from 0 on */
  readonly pmf!: number[];
}

export class LeadTimesView extends View {
  readonly items!: LeadTimeView[];
}
