import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, NotFound, type Reader, toPage, viewOf } from '../../app/index.js';
import { dateOf, dayOf } from '../../registry/index.js';
import { type Lateness, orderLateness } from '../core/orders/order-lateness.js';
import { chaseLetter, orderLetter } from '../core/orders/order-letter.js';
import { unitInWords } from '../core/supply/unit-in-words.js';
import type { TableRow } from '../csv/table-file.js';
import { type ItemLeadTime, LeadTimes } from './lead-times.js';
import { AwaitedOrdersView, AwaitedOrderView, LeadTimesView, LeadTimeView, LetterView, OrdersPageView, type OrderView } from './order-views.dto.js';
import { listView, neededOnOf, orderView, progressOf } from './order-views.js';
import type { OrdersQuery } from './orders.dto.js';
import { isItem, type OrderInList, ordersPage, placeNames, sentOrders, wholeOrder } from './orders.repository.js';

/** Orders as people read them. */
@Injectable()
export class OrderList {
  constructor(
    private readonly database: Database,
    private readonly leadTimes: LeadTimes,
    private readonly clock: Clock,
  ) {}

  async page(query: OrdersQuery): Promise<OrdersPageView> {
    const { prisma } = this.database;
    const rows = await ordersPage(prisma, query);
    const places = await this.placesOf(prisma, rows);
    return viewOf(
      OrdersPageView,
      toPage(
        rows,
        query.limit,
        (row) => listView(row, places.get(row.placeId) ?? ''),
        ({ no }) => [no],
      ),
    );
  }

  async read(id: string, reader: Reader = this.database.prisma): Promise<OrderView> {
    const order = await wholeOrder(reader, id);
    return orderView(order, (await placeNames(reader, [order.placeId])).get(order.placeId) ?? '');
  }

  /** Orders that have not all come: the latest first, then those that are needed soonest. */
  async awaited(): Promise<AwaitedOrdersView> {
    const { prisma } = this.database;
    const orders = await sentOrders(prisma);
    const places = await this.placesOf(prisma, orders);
    const slowest = await this.slowest(prisma, orders);
    const views = orders.flatMap((order) => {
      const lateness = this.latenessOf(order, slowest);
      if (lateness === null) return [];
      const { expectedOn, ...rest } = lateness;
      return [viewOf(AwaitedOrderView, { order: listView(order, places.get(order.placeId) ?? ''), expectedOn: dayOf(expectedOn), ...rest })];
    });
    const needed = ({ order }: AwaitedOrderView) => order.neededOn ?? '9999';
    return viewOf(AwaitedOrdersView, { items: views.sort((a, b) => b.lateDays - a.lateDays || needed(a).localeCompare(needed(b)) || a.order.no - b.order.no) });
  }

  /** What is written to the supplier: the order, or, once it was sent, the question when it comes. */
  async letter(caller: Caller, id: string, reader: Reader = this.database.prisma): Promise<LetterView> {
    const order = await wholeOrder(reader, id);
    const { supplierEmail: to, ...view } = await this.read(id, reader);
    const { no, currency, customerNumber, placeName, note, value, lines, sentAt } = view;
    if (order.state !== 'sent' || sentAt === null) {
      const inWords = lines.map(({ no: lineNo, itemCode, itemName, supplierCode, quantity, price, neededOn, ...packed }) => ({
        no: lineNo,
        itemCode,
        itemName,
        supplierCode,
        quantity,
        price,
        neededOn,
        unit: unitInWords(packed),
      }));
      return viewOf(LetterView, { to, ...orderLetter({ no, currency, customerNumber, deliverTo: placeName, note, by: caller.name, value, lines: inWords }) });
    }
    const lateness = this.latenessOf(order, await this.slowest(reader, [order]));
    if (lateness === null) throw new Conflict(`Everything of order ${no} has come: there is nothing to ask after`);
    const open = lines
      .filter((line) => line.open !== '0')
      .map(({ itemCode, itemName, supplierCode, open: quantity, useUnit }) => ({
        itemCode,
        itemName,
        supplierCode,
        quantity,
        unit: unitInWords({ unit: useUnit, useUnit, unitsPerPurchase: '1' }),
      }));
    const promised = order.promisedOn !== null;
    return viewOf(LetterView, { to, ...chaseLetter({ no, sentOn: dayOf(sentAt), expectedOn: dayOf(lateness.expectedOn), promised, by: caller.name, open }) });
  }

  /** One line a row, as suppliers read it into their own program. */
  async table(id: string): Promise<{ name: string; rows: TableRow[] }> {
    const { no, currency, lines } = await this.read(id);
    const rows = lines.map((line) => ({
      order: no,
      line: line.no,
      item: line.itemCode,
      'supplier code': line.supplierCode,
      name: line.itemName,
      quantity: line.quantity,
      unit: line.unit,
      price: line.price,
      currency,
      'needed on': line.neededOn,
    }));
    return { name: `order-${no}`, rows };
  }

  async leadTimesOf(itemId: string): Promise<LeadTimesView> {
    const { prisma } = this.database;
    if (!(await isItem(prisma, itemId))) throw new NotFound('item', itemId);
    const items = await this.leadTimes.ofOffers(prisma, [itemId]);
    return viewOf(LeadTimesView, {
      items: items.map(({ supplierId, supplierName, leadTime: { statedDays, p10, p50, p90, meanDays, came, awaited, pmf } }) =>
        viewOf(LeadTimeView, { itemId, supplierId, supplierName, statedDays, p10, p50, p90, meanDays, came, awaited, pmf: [...pmf] }),
      ),
    });
  }

  private placesOf(reader: Reader, orders: readonly { placeId: string }[]): Promise<Map<string, string>> {
    return placeNames(
      reader,
      orders.map(({ placeId }) => placeId),
    );
  }

  /** Of each order, the lead time of the open line that takes longest: the order has come when the last of it has. */
  private async slowest(reader: Reader, orders: readonly OrderInList[]): Promise<Map<string, ItemLeadTime>> {
    const terms = orders.flatMap(({ supplierId, supplier, lines, returns }) =>
      lines
        .filter((line) => progressOf(line, returns).open !== '0')
        .map(({ itemId }) => ({ itemId, supplierId, supplierName: supplier.name, statedDays: supplier.leadDays })),
    );
    const offered = await this.leadTimes.ofOffers(reader, [...new Set(terms.map(({ itemId }) => itemId))]);
    const known = new Map(offered.map((one) => [`${one.itemId} ${one.supplierId}`, one]));
    const unknown = await this.leadTimes.learn(
      reader,
      terms.filter(({ itemId, supplierId }) => !known.has(`${itemId} ${supplierId}`)),
    );
    for (const one of unknown) known.set(`${one.itemId} ${one.supplierId}`, one);
    return new Map(
      orders.flatMap(({ id, supplierId, lines }) => {
        const times = lines.flatMap(({ itemId }) => known.get(`${itemId} ${supplierId}`) ?? []);
        const last = times.reduce<ItemLeadTime | undefined>(
          (longest, one) => (longest === undefined || one.leadTime.p90 > longest.leadTime.p90 ? one : longest),
          undefined,
        );
        return last === undefined ? [] : [[id, last] as const];
      }),
    );
  }

  /** Null: nothing of it is awaited. */
  private latenessOf(order: OrderInList, slowest: ReadonlyMap<string, ItemLeadTime>): Lateness | null {
    const time = slowest.get(order.id);
    if (order.sentAt === null || time === undefined) return null;
    const awaited = { sentOn: dateOf(dayOf(order.sentAt)), promisedOn: order.promisedOn, neededOn: neededOnOf(order) };
    return orderLateness(awaited, time.leadTime, dateOf(dayOf(this.clock.now())));
  }
}
