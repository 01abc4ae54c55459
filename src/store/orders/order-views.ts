import { viewOf } from '../../app/index.js';
import { dayOf, dayOrNull } from '../../registry/index.js';
import { inUseUnits, lineProgress } from '../core/orders/line-progress.js';
import type { OrderState } from '../core/orders/order-acts.js';
import { orderValue } from '../core/orders/order-value.js';
import {
  type Arrival,
  OrderChangeView,
  OrderInListView,
  OrderLineView,
  OrderView,
  ReceiptLineView,
  ReceiptView,
  ReturnLineView,
  SupplierReturnView,
} from './order-views.dto.js';
import type { OrderInList, WholeOrder } from './orders.repository.js';
import type { Outcome } from './receiving.dto.js';

type Line = OrderInList['lines'][number];
type Returns = OrderInList['returns'];

/** What was ordered of a line and what came of it, in units of use. */
export function progressOf(line: Line, returns: Returns) {
  const ordered = inUseUnits(line.quantity.toFixed(), line.unitsPerPurchase.toFixed());
  const back = returns.flatMap(({ lines }) => lines.filter(({ lineId, outcome, replaced }) => lineId === line.id && outcome === 'good' && replaced));
  const received = line.received.map(({ outcome, quantity }) => ({ outcome: outcome as Outcome, quantity: quantity.toFixed() }));
  return { ordered, ...lineProgress({ ordered, received, toBeReplaced: back.map(({ quantity }) => quantity.toFixed()) }) };
}

export function arrivalOf(lines: readonly Line[], returns: Returns): Arrival {
  const all = lines.map((line) => progressOf(line, returns));
  if (all.every(({ open }) => open === '0')) return 'all';
  return all.every(({ good }) => good === '0') ? 'nothing' : 'part';
}

const worthOf = (lines: readonly Pick<Line, 'quantity' | 'price'>[]) =>
  orderValue(lines.map(({ quantity, price }) => ({ quantity: quantity.toFixed(), price: price?.toFixed() ?? null })));

/** The first day on which something is needed that has not come. */
export function neededOnOf({ lines, returns }: Pick<OrderInList, 'lines' | 'returns'>): Date | null {
  const days = lines.flatMap((line) => (line.neededOn === null || progressOf(line, returns).open === '0' ? [] : [line.neededOn.getTime()]));
  return days.length === 0 ? null : new Date(Math.min(...days));
}

export function listView(order: OrderInList, placeName: string): OrderInListView {
  const { id, no, supplierId, supplier, placeId, state, currency, lines, returns, madeAt, sentAt, promisedOn, version } = order;
  return viewOf(OrderInListView, {
    id,
    no,
    supplierId,
    supplierName: supplier.name,
    placeId,
    placeName,
    state: state as OrderState,
    arrived: arrivalOf(lines, returns),
    currency,
    ...worthOf(lines),
    lines: lines.length,
    madeAt,
    sentAt,
    promisedOn: dayOrNull(promisedOn),
    neededOn: dayOrNull(neededOnOf(order)),
    version,
  });
}

export function orderView(order: WholeOrder, placeName: string): OrderView {
  const { id, no, supplierId, supplier, placeId, state, currency, note, lines, receipts, returns, changes, version } = order;
  const { madeAt, madeBy, approvedAt, approvedBy, sentAt, sentBy, sentHow, endedAt, endedBy, endReason } = order;
  return viewOf(OrderView, {
    id,
    no,
    supplierId,
    supplierName: supplier.name,
    supplierEmail: supplier.email,
    customerNumber: supplier.customerNumber,
    placeId,
    placeName,
    state: state as OrderState,
    arrived: arrivalOf(lines, returns),
    currency,
    rate: order.rate?.toFixed() ?? null,
    ...worthOf(lines),
    note,
    promisedOn: dayOrNull(order.promisedOn),
    madeAt,
    madeBy,
    approvedAt,
    approvedBy,
    sentAt,
    sentBy,
    sentHow,
    endedAt,
    endedBy,
    endReason,
    lines: lines.map((line) => lineView(line, returns)),
    receipts: receipts.map(receiptView),
    returns: returns.map(returnView),
    changes: changes.map(({ at, by, what, detail }) => viewOf(OrderChangeView, { at, by, what, detail })),
    version,
  });
}

function lineView(line: Line, returns: Returns): OrderLineView {
  const { id, no, itemId, item, supplierCode, unit, quantity, price, neededOn, reason, proposalId, unitsPerPurchase } = line;
  return viewOf(OrderLineView, {
    id,
    no,
    itemId,
    itemCode: item.code,
    itemName: item.name,
    supplierCode,
    unit,
    quantity: quantity.toFixed(),
    price: price?.toFixed() ?? null,
    neededOn: dayOrNull(neededOn),
    reason,
    proposalId,
    useUnit: item.unit,
    unitsPerPurchase: unitsPerPurchase.toFixed(),
    ...progressOf(line, returns),
  });
}

function receiptView({ id, at, by, deliveryNote, note, postId, takenBackAt, lines }: WholeOrder['receipts'][number]): ReceiptView {
  const ofLine = ({ lineId, outcome, itemId, quantity, placeId, lot, expiresOn, note: about }: (typeof lines)[number]) =>
    viewOf(ReceiptLineView, {
      lineId,
      outcome: outcome as Outcome,
      itemId,
      quantity: quantity.toFixed(),
      placeId,
      lot,
      expiresOn: expiresOn === null ? null : dayOf(expiresOn),
      note: about,
    });
  return viewOf(ReceiptView, { id, at, by, deliveryNote, note, postId, takenBackAt, lines: lines.map(ofLine) });
}

function returnView({ id, at, by, reason, lines }: Returns[number]): SupplierReturnView {
  const ofLine = ({ lineId, outcome, itemId, quantity, placeId, lot, replaced }: (typeof lines)[number]) =>
    viewOf(ReturnLineView, { lineId, outcome: outcome as Outcome, itemId, quantity: quantity.toFixed(), placeId, lot, replaced });
  return viewOf(SupplierReturnView, { id, at, by, reason, lines: lines.map(ofLine) });
}
