import { View } from '../../app/index.js';
import type { CRITICALITIES, SERVICES } from './reorder.dto.js';

/** Until what is ordered at the next review has come. Pieces as numbers: they are expectations. */
export class NeedView extends View {
  /** As likely as not no more than this is needed; and with nine tenths */
  readonly p50!: number;
  readonly p90!: number;
  readonly mean!: number;
  /** Of the mean, from work with a day, from outlooks of fitted parts, from the rest */
  readonly ofPlans!: number;
  readonly ofOutlooks!: number;
  readonly ofTheRest!: number;
  /** On average */
  readonly daysCovered!: number;
}

/** What drives the need: a piece of work, an outlook of a fitted part, a tank, or use that nothing told of. */
export class NeedReasonView extends View {
  readonly kind!: 'due' | 'job' | 'coming work' | 'outlook' | 'tank' | 'unplanned';
  readonly text!: string;
  readonly skidId!: string | null;
  readonly skidName!: string | null;
  readonly siteName!: string | null;
  /** The day of the work; of an outlook, its P50 */
  readonly day!: string | null;
  /** Pieces that are expected of it within the days covered */
  readonly expected!: number;
}

export class OfferedTransferView extends View {
  readonly fromPlaceId!: string;
  readonly fromPlaceName!: string;
  /** In units of use */
  readonly quantity!: string;
}

/** As it would be bought. */
export class PurchaseView extends View {
  readonly supplierId!: string;
  readonly supplierName!: string;
  readonly supplierCode!: string;
  /** In units of purchase, and in units of use */
  readonly quantity!: string;
  readonly unit!: string;
  readonly useQuantity!: string;
  /** Of one unit of purchase, in the supplier’s currency */
  readonly price!: string | null;
  readonly currency!: string;
  readonly value!: string | null;
  /** Part of it would expire before it is used: so many units of use */
  readonly wouldExpire!: string | null;
  /** Days from order to delivery */
  readonly leadP50!: number;
  readonly leadP90!: number;
}

/** What a stock is good for until the next order can have come. */
export class ServiceView extends View {
  /** Probability that nothing is missing */
  readonly enough!: number;
  /** Pieces missing on average */
  readonly missing!: number;
}

export class IfItWaitsView extends View {
  readonly days!: number;
  /** Probability that nothing is missing, when it is ordered now and when it waits */
  readonly enoughNow!: number;
  readonly enoughLater!: number;
  readonly missingLater!: number;
  readonly text!: string;
}

export class PaceView extends View {
  readonly kind!: 'moving' | 'slow' | 'dead';
  /** Months since the last use; of dead stock */
  readonly idleMonths!: number | null;
  /** So many years’ need lie there; of slow stock */
  readonly yearsOfNeed!: number | null;
  readonly tooMuch!: number | null;
}

export class DecisionView extends View {
  readonly id!: string;
  readonly state!: 'accepted' | 'changed' | 'dismissed';
  readonly quantity!: string;
  readonly proposed!: string;
  readonly supplierId!: string | null;
  readonly supplierName!: string | null;
  readonly reason!: string;
  readonly until!: string | null;
  readonly at!: Date;
  readonly by!: string;
  readonly endedAt!: Date | null;
  readonly endedBy!: string | null;
  readonly endedWhy!: string | null;
  readonly orderId!: string | null;
}

export class ReorderLineView extends View {
  /** Stays the same as long as the item has a line at the place */
  readonly id!: string;
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  readonly placeId!: string;
  readonly placeName!: string;
  readonly placeKind!: 'store' | 'van' | 'site';
  readonly criticality!: (typeof CRITICALITIES)[number];
  readonly computedAt!: Date;
  /** buy; transfer: all of it lies elsewhere; nothing: there is enough */
  readonly action!: 'buy' | 'transfer' | 'nothing';
  /** To be bought, or to be brought where all is brought; in units of use */
  readonly quantity!: string;
  /** Null where nothing is bought, or nobody is known to sell it */
  readonly purchase!: PurchaseView | null;
  /** Of what is not due yet and falls due within sixty days: as an order for something else from the same supplier may take it along */
  readonly alongWith!: PurchaseView | null;
  /** It pays to take it along: an order of its own would cost more than keeping it until it is due */
  readonly canOrder!: boolean;
  /** What lies too much elsewhere: taken before anything is bought */
  readonly transfers!: OfferedTransferView[];
  readonly orderBy!: string | null;
  /** The day on which what is there is expected to be used up */
  readonly neededBy!: string | null;
  readonly need!: NeedView;
  readonly reasons!: NeedReasonView[];
  /** Reasons beyond those that are listed */
  readonly reasonsLeft!: number;
  /** Places whose stock and use are counted with this one, because it supplies them */
  readonly supplies!: string[];
  readonly onHand!: string;
  readonly reserved!: string;
  readonly onOrder!: string;
  readonly onTheWay!: string;
  /** On hand, on order and on the way, less what is reserved */
  readonly position!: string;
  /** Will be past its expiry before it is used */
  readonly expiring!: string;
  /** Ordered when the position falls to it */
  readonly point!: number;
  readonly upTo!: number;
  readonly service!: (typeof SERVICES)[number];
  /** Null for service by cost */
  readonly asked!: number | null;
  readonly reviewDays!: number;
  readonly minimum!: string | null;
  readonly maximum!: string | null;
  readonly now!: ServiceView;
  readonly oneMore!: ServiceView;
  readonly oneLess!: ServiceView;
  /** Null where nothing is to be done */
  readonly ifItWaits!: IfItWaitsView | null;
  readonly pace!: PaceView;
  /** Share by which parts lasted longer (above 0) or shorter than outlooks said; null where no outlook drives the line, or too few have come true */
  readonly partsLasted!: number | null;
  /** What holds now */
  readonly decision!: DecisionView | null;
}

export class ReorderPageView extends View {
  readonly items!: ReorderLineView[];
  readonly next!: string | null;
  /** Lines of the whole list, whatever the page */
  readonly total!: number;
  /** When all lines were computed last; null: not yet */
  readonly computedAt!: Date | null;
}

export class BalanceOfDayView extends View {
  readonly day!: string;
  readonly onHand!: number;
}

export class ProjectedView extends View {
  readonly day!: string;
  /** Stock that is not reserved, as expected, with what is on order and without new orders; and where need is as high as in one case of ten */
  readonly expected!: number;
  readonly low!: number;
}

export class ArrivalView extends View {
  readonly day!: string;
  readonly quantity!: string;
  readonly kind!: 'order' | 'transfer';
  readonly orderId!: string | null;
  readonly orderNo!: number | null;
  readonly late!: boolean;
}

export class ExpiryView extends View {
  readonly day!: string;
  readonly lot!: string;
  readonly quantity!: string;
  readonly placeName!: string;
}

export class StockSettingView extends View {
  readonly itemId!: string;
  readonly placeId!: string;
  readonly service!: (typeof SERVICES)[number] | null;
  readonly asked!: number | null;
  readonly shortCost!: string | null;
  readonly reviewDays!: number | null;
  readonly minimum!: string | null;
  readonly maximum!: string | null;
  readonly criticality!: (typeof CRITICALITIES)[number] | null;
  readonly note!: string;
  /** Null: nobody has said anything, and what is usual holds */
  readonly by!: string | null;
  readonly at!: Date | null;
  /** 0 where nobody has said anything */
  readonly version!: number;
}

/** An item at one place, over time. */
export class StockCardView extends View {
  readonly line!: ReorderLineView;
  /** By week, the last one today */
  readonly past!: BalanceOfDayView[];
  readonly ahead!: ProjectedView[];
  readonly arrivals!: ArrivalView[];
  readonly expiries!: ExpiryView[];
  readonly setting!: StockSettingView;
  /** The latest first */
  readonly decisions!: DecisionView[];
}

/** An item at all its places, as it is now. */
export class ReorderItemView extends View {
  readonly itemId!: string;
  readonly itemCode!: string;
  readonly itemName!: string;
  readonly unit!: string;
  /** What is bought in its stead */
  readonly supersededById!: string | null;
  readonly supersededByCode!: string | null;
  readonly cards!: StockCardView[];
}

export class SiteSupplyView extends View {
  readonly siteId!: string;
  readonly placeId!: string | null;
}

export class RecomputeAskedView extends View {
  readonly asked!: boolean;
}
