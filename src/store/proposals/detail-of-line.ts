import type { View } from '../../app/index.js';
import { type Day, dayPlus } from '../../shared/day.js';
import type { OutlookRecord } from '../core/demand/types.js';
import { boughtQuantity } from '../core/policy/order-quantity.js';
import type { LineComputed } from '../core/proposals/reorder-line.js';
import { waitingInWords } from '../core/proposals/waiting-in-words.js';
import type { LineOfPlace } from './lines-of-item.js';
import type { ReorderLineView } from './reorder-views.dto.js';
import type { Way } from './ways-to-buy.js';

/** Reasons that are listed, where something is to be done and where nothing is; the rest is counted. */
const LISTED = 8;
const LISTED_OF_ENOUGH = 3;
/** Fewer past outlooks than these say nothing of how they run. */
const OUTLOOKS_TO_TELL = 20;

type Plain<T> = T extends View
  ? { readonly [Field in Exclude<keyof T, 'isView'>]: Plain<T[Field]> }
  : T extends readonly (infer One)[]
    ? readonly Plain<One>[]
    : T;

/** What a line shows beyond the names of its item and place, and what was decided on it: as it is stored. */
export type LineDetail = Omit<
  Plain<ReorderLineView>,
  'id' | 'itemId' | 'itemCode' | 'itemName' | 'unit' | 'placeId' | 'placeName' | 'placeKind' | 'computedAt' | 'decision'
>;

export interface Described {
  readonly shelfLifeDays: number | null;
  readonly way: Way | null;
  readonly record: OutlookRecord;
  readonly placeName: (id: string) => string;
  readonly skid: (id: string) => { readonly name: string; readonly siteName: string } | null;
  readonly today: Day;
}

/** The skids that the listed reasons of a line name. */
export const skidsOf = ({ computed, causes }: LineOfPlace): string[] =>
  listed(computed).flatMap((reason) => (reason.kind === 'unplanned' ? [] : (causes.get(reason.cause)?.skidId ?? [])));

export function detailOfLine(line: LineOfPlace, described: Described): LineDetail {
  const { computed, buys, transfers, service, setting, criticality, reviewDays, supplies, onHand, reserved, onOrder, onTheWay } = line;
  const { need, levels, position, expiring, wanted, orderInDays, neededInDays, ifItWaits, pace, fillsUp, canOrder } = computed;
  const { today, placeName } = described;
  const reasons = listed(computed);
  const brought = transfers.reduce((sum, { quantity }) => sum + quantity, 0);
  const purchase = buys && wanted > brought ? purchaseOf(line, wanted - brought, described) : null;
  const open = purchase === null ? Math.max(0, wanted - brought) : Number(purchase.useQuantity);
  const action = wanted <= 0 ? 'nothing' : buys && open > 0 ? 'buy' : 'transfer';
  return {
    criticality,
    action,
    quantity: text(action === 'nothing' ? 0 : action === 'buy' ? open : wanted),
    purchase,
    alongWith: buys && fillsUp > 0 ? keeps(purchaseOf(line, fillsUp, described)) : null,
    canOrder: buys && canOrder,
    transfers: transfers.map(({ fromPlaceId, quantity }) => ({ fromPlaceId, fromPlaceName: placeName(fromPlaceId), quantity: text(quantity) })),
    orderBy: orderInDays === null ? null : dayPlus(today, orderInDays),
    neededBy: neededInDays === null ? null : dayPlus(today, neededInDays),
    need: {
      p50: need.p50,
      p90: need.p90,
      mean: figure(need.mean),
      ofPlans: figure(need.ofPlans),
      ofOutlooks: figure(need.ofOutlooks),
      ofTheRest: figure(need.ofTheRest),
      daysCovered: figure(need.daysCovered),
    },
    reasons: reasons.flatMap((reason) => reasonView(reason, line, described)),
    reasonsLeft: need.reasons.length - reasons.length,
    supplies: supplies.map(({ name }) => name),
    onHand: text(onHand),
    reserved: text(reserved),
    onOrder: text(onOrder),
    onTheWay: text(onTheWay),
    position: text(position),
    expiring: text(expiring),
    point: levels.point,
    upTo: levels.upTo,
    service: service.kind,
    asked: service.kind === 'cost' ? null : service.asked,
    reviewDays,
    minimum: setting?.minimum ?? null,
    maximum: setting?.maximum ?? null,
    now: serviceView(computed.service.now),
    oneMore: serviceView(computed.service.oneMore),
    oneLess: serviceView(computed.service.oneLess),
    ifItWaits: ifItWaits === null ? null : { ...ifItWaits, text: waitingInWords(ifItWaits, today) },
    pace: paceView(pace),
    partsLasted: need.ofOutlooks > 0 && described.record.n >= OUTLOOKS_TO_TELL ? described.record.lasted : null,
  };
}

/** What would expire is ordered when it must be, and no day before. */
const keeps = (purchase: LineDetail['purchase']) => (purchase?.wouldExpire === null ? purchase : null);

const listed = ({ need, wanted }: LineComputed) => need.reasons.slice(0, wanted > 0 ? LISTED : LISTED_OF_ENOUGH);

/** Nobody reads more of an expectation than five figures. */
const figure = (value: number) => Number(value.toPrecision(5));
const serviceView = ({ enough, missing }: { readonly enough: number; readonly missing: number }) => ({ enough: figure(enough), missing: figure(missing) });

const text = (quantity: number) => String(Number(quantity.toFixed(6)));

function purchaseOf({ computed, leadTime }: LineOfPlace, wanted: number, { way, shelfLifeDays }: Described): LineDetail['purchase'] {
  if (way === null || leadTime === null) return null;
  const { offer, supplier } = way;
  const upp = Number(offer.unitsPerPurchase);
  const left = shelfLifeDays === null ? null : Math.max(0, Math.floor((computed.perYear * shelfLifeDays) / 365) - Math.max(0, computed.position));
  // What would expire is not asked for, as long as the order point is reached.
  const sensible = left === null ? wanted : Math.max(computed.levels.point + 1 - computed.position, Math.min(wanted, left));
  const bought = boughtQuantity(Math.min(wanted, sensible), {
    pack: Number(offer.pack) * upp,
    atLeast: Number(offer.minimumQuantity) * upp,
    beforeExpiry: left,
  });
  const quantity = bought.pieces / upp;
  return {
    supplierId: supplier.id,
    supplierName: supplier.name,
    supplierCode: offer.supplierCode,
    quantity: text(quantity),
    unit: offer.purchaseUnit,
    useQuantity: text(bought.pieces),
    price: offer.price,
    currency: supplier.currency,
    value: offer.price === null ? null : String(Number((Number(offer.price) * quantity).toFixed(4))),
    wouldExpire: bought.kind === 'would expire' ? text(bought.pieces - bought.used) : null,
    leadP50: leadTime.p50,
    leadP90: leadTime.p90,
  };
}

function reasonView(reason: LineComputed['need']['reasons'][number], { causes }: LineOfPlace, { skid, today }: Described): LineDetail['reasons'] {
  const expected = figure(reason.expected);
  if (reason.kind === 'unplanned') {
    const known = reason.months === 0 ? 'nothing is known of its use: as items of the store on average' : `by the use of ${reason.months} months`;
    const words = `Not foreseen: ${Number(reason.perMonth.toPrecision(2))} a month, ${known}`;
    return [{ kind: 'unplanned', text: words, skidId: null, skidName: null, siteName: null, day: null, expected }];
  }
  const cause = causes.get(reason.cause);
  if (cause === undefined) return [];
  const of = cause.skidId === null ? null : skid(cause.skidId);
  const inDays = reason.kind === 'planned' ? reason.inDays : reason.p50Days;
  return [
    {
      kind: cause.kind,
      text: cause.text,
      skidId: cause.skidId,
      skidName: of?.name ?? null,
      siteName: of?.siteName ?? null,
      day: inDays === null ? null : dayPlus(today, Math.round(inDays)),
      expected,
    },
  ];
}

function paceView(pace: LineComputed['pace']): LineDetail['pace'] {
  switch (pace.kind) {
    case 'moving':
      return { kind: 'moving', idleMonths: null, yearsOfNeed: null, tooMuch: null };
    case 'slow':
      return { kind: 'slow', idleMonths: null, yearsOfNeed: pace.yearsOfNeed, tooMuch: pace.tooMuch };
    case 'dead':
      return { kind: 'dead', idleMonths: pace.idleMonths, yearsOfNeed: null, tooMuch: null };
  }
}
