import { Injectable } from '@nestjs/common';
import { differenceInCalendarDays } from 'date-fns/differenceInCalendarDays';
import { type Caller, Clock, Database, faultIn, given, type KeyedRequest, KeyedWork, newId, type Reader, viewOf } from '../../app/index.js';
import { dateOf } from '../../registry/index.js';
import { groupLines, type WantedLine } from '../core/orders/group-lines.js';
import { holdSupplier } from '../supply/suppliers.repository.js';
import { held, view } from './change-orders.js';
import { linesOfOrder } from './lines-of-order.js';
import { type OfferedItem, offersOfItems, termsOf } from './offered-items.repository.js';
import { DraftShortView, DraftsView, NotOrderedView, type OrderView } from './order-views.dto.js';
import { listView } from './order-views.js';
import { changeOrder, makeOrder, replaceLines, tellChange } from './order-writes.repository.js';
import type { OrderDto, OrderEditDto, OrderLineDto, WantedLineDto } from './orders.dto.js';
import { openPlace, ordersOfIds, placeNames } from './orders.repository.js';

/** Orders while they are drafts. */
@Injectable()
export class MakeOrders {
  constructor(
    private readonly database: Database,
    private readonly work: KeyedWork,
    private readonly clock: Clock,
  ) {}

  create(caller: Caller, key: KeyedRequest, input: OrderDto): Promise<OrderView> {
    return this.work.run(key, async (tx) => view(tx, await this.make(tx, caller, input)));
  }

  edit(caller: Caller, id: string, version: number, { lines, ...change }: OrderEditDto): Promise<OrderView> {
    return this.database.write(async (tx) => {
      const order = await held(tx, id, 'edit');
      if (change.placeId !== undefined) await checkPlace(tx, change.placeId);
      await changeOrder(tx, id, version, given(change));
      if (lines !== undefined) await replaceLines(tx, id, await linesOfOrder(tx, order.supplierId, lines, this.clock.now()));
      const what = [
        ...Object.keys(given(change)).map((field) => (field === 'placeId' ? 'place' : field)),
        ...(lines === undefined ? [] : [`${lines.length} lines`]),
      ];
      await tellChange(tx, id, caller, this.clock.now(), 'edited', what.join(', '));
      return view(tx, id);
    });
  }

  /** Puts what is wanted together into drafts: one for each supplier and place. */
  group(caller: Caller, key: KeyedRequest, wanted: readonly WantedLineDto[]): Promise<DraftsView> {
    return this.work.run(key, (tx) => this.drafts(tx, caller, wanted));
  }

  /** As `group`, in the transaction of other work. */
  async drafts(tx: Reader, caller: Caller, wanted: readonly WantedLineDto[]): Promise<DraftsView> {
    const now = this.clock.now();
    const ways = await waysToBuy(tx, wanted, now);
    const lines = ways.flatMap((way) => ('why' in way ? [] : [way]));
    const terms = await termsOf(
      tx,
      lines.map(({ supplierId }) => supplierId),
    );
    const grouped = groupLines(lines, terms);
    const made: { orderId: string; short: number }[] = [];
    for (const { supplierId, placeId, lines: chosen, short } of grouped) {
      const orderLines = chosen.map(({ id, quantity, raisedTo, early }) => orderLineOf(wanted[Number(id)], quantity, raisedTo, early));
      made.push({ orderId: await this.make(tx, caller, { supplierId, placeId, lines: orderLines }), short });
    }
    const ids = made.map(({ orderId }) => orderId);
    const orders = await ordersOfIds(tx, ids);
    const places = await placeNames(
      tx,
      orders.map(({ placeId }) => placeId),
    );
    const chosen = new Set(grouped.flatMap((group) => group.lines.map(({ id }) => Number(id))));
    const notNow = lines.filter(({ id }) => !chosen.has(Number(id))).map(({ id }) => ({ line: Number(id), why: 'it need not be ordered yet' }));
    return viewOf(DraftsView, {
      orders: orders.map((order) => listView(order, places.get(order.placeId) ?? '')),
      short: made.filter(({ short }) => short > 0).map(({ orderId, short }) => viewOf(DraftShortView, { orderId, short: String(Number(short.toFixed(4))) })),
      leftOut: [...ways.flatMap((way) => ('why' in way ? [way] : [])), ...notNow].map((left) => viewOf(NotOrderedView, left)),
    });
  }

  private async make(tx: Reader, caller: Caller, { supplierId, placeId, note = '', lines }: OrderDto): Promise<string> {
    const supplier = await holdSupplier(tx, supplierId);
    if (supplier === null || supplier.endedOn !== null) throw faultIn('supplierId', 'must be a supplier that has not ended');
    await checkPlace(tx, placeId);
    const now = this.clock.now();
    const id = newId();
    const order = { id, supplierId, placeId, currency: supplier.currency, note, madeAt: now, madeBy: caller.name };
    await makeOrder(tx, order, await linesOfOrder(tx, supplierId, lines, now));
    await tellChange(tx, id, caller, now, 'made', `${lines.length} lines`);
    return id;
  }
}

async function checkPlace(tx: Reader, placeId: string): Promise<void> {
  if ((await openPlace(tx, placeId)) === null) throw faultIn('placeId', 'must be a place that has not ended');
}

type Way = WantedLine | { readonly line: number; readonly why: string };

/** From whom, and in which units, each line is bought; or why it cannot be. */
async function waysToBuy(tx: Reader, wanted: readonly WantedLineDto[], now: Date): Promise<Way[]> {
  const suppliers = [...new Set(wanted.map(({ supplierId = null }) => supplierId))];
  const offers = new Map<string | null, ReadonlyMap<string, OfferedItem>>();
  const asked = (supplierId: string | null) => wanted.filter((line) => (line.supplierId ?? null) === supplierId).map(({ itemId }) => itemId);
  for (const supplierId of suppliers) offers.set(supplierId, await offersOfItems(tx, supplierId, asked(supplierId), now));
  return wanted.map(({ itemId, placeId, quantity, supplierId = null, orderBy = null, comesAlong = false }, line): Way => {
    const item = offers.get(supplierId)?.get(itemId);
    if (item === undefined) return { line, why: 'there is no such item, or it has ended' };
    const { offer } = item;
    if (offer === null) return { line, why: `nobody is known to sell ${item.itemCode}: enter an offer of a supplier first` };
    return {
      id: String(line),
      supplierId: offer.supplierId,
      placeId,
      quantity: Number(quantity) / Number(offer.unitsPerPurchase),
      pack: Number(offer.pack),
      minimumQuantity: Number(offer.minimumQuantity),
      price: offer.price === null ? null : Number(offer.price),
      orderInDays: orderBy === null ? 0 : differenceInCalendarDays(dateOf(orderBy), now),
      comesAlong,
    };
  });
}

const RAISED = { pack: 'raised to whole packs', minimum: 'raised to the least that is sold' } as const;

function orderLineOf(wanted: WantedLineDto | undefined, quantity: number, raisedTo: 'pack' | 'minimum' | null, early: boolean): OrderLineDto {
  if (wanted === undefined) throw new Error('A group has a line that nobody asked for');
  const { itemId, neededOn = null, reason = '', proposalId = null, comesAlong = false } = wanted;
  const why = [
    ...(reason === '' ? [] : [reason]),
    ...(raisedTo === null ? [] : [RAISED[raisedTo]]),
    ...(early ? [comesAlong ? 'ordered with what is due from the supplier' : 'taken along to reach the supplier’s minimum order'] : []),
  ];
  return { itemId, quantity: String(Number(quantity.toFixed(6))), neededOn, reason: why.join('; ').slice(0, 500), proposalId };
}
