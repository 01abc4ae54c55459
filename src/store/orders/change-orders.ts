import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, type Reader } from '../../app/index.js';
import { dateOf, dayOf } from '../../registry/index.js';
import { actRefusal, type OrderAct, type OrderState } from '../core/orders/order-acts.js';
import { orderValue, product } from '../core/orders/order-value.js';
import { millionthsOf } from '../core/quantity.js';
import { rateOn, readSettings } from '../supply/settings.repository.js';
import type { OrderView } from './order-views.dto.js';
import { arrivalOf, orderView } from './order-views.js';
import { changeOrder, tellChange } from './order-writes.repository.js';
import { holdOrder, placeNames, type WholeOrder, wholeOrder } from './orders.repository.js';

/** From a draft to the end of an order. Every act is on record with who and when. */
@Injectable()
export class ChangeOrders {
  constructor(
    private readonly database: Database,
    private readonly clock: Clock,
  ) {}

  approve(caller: Caller, id: string, version: number): Promise<OrderView> {
    return this.change(id, 'approve', async (tx, order, now) => {
      await this.checkLimit(tx, caller, order, now);
      await changeOrder(tx, id, version, { state: 'approved', approvedAt: now, approvedBy: caller.name });
      await tellChange(tx, id, caller, now, 'approved');
    });
  }

  /** Back to a draft, which can be changed and must be approved anew. */
  takeBack(caller: Caller, id: string, version: number): Promise<OrderView> {
    return this.change(id, 'take back', async (tx, _, now) => {
      await changeOrder(tx, id, version, { state: 'draft', approvedAt: null, approvedBy: null });
      await tellChange(tx, id, caller, now, 'taken back');
    });
  }

  /** The order went to the supplier: its currency's rate of the day is what its costs are reckoned with. */
  send(caller: Caller, id: string, version: number): Promise<OrderView> {
    return this.database.write(async (tx) => {
      await this.markSent(tx, caller, id, version, 'by hand');
      return view(tx, id);
    });
  }

  /** As `send`, in the transaction of whatever sends it. */
  async markSent(tx: Reader, caller: Caller, id: string, version: number, sentHow: 'by hand' | 'e-mail'): Promise<WholeOrder> {
    const order = await held(tx, id, 'send');
    const now = this.clock.now();
    const rate = await rateOn(tx, order.currency, now);
    if (rate === null)
      throw new Conflict(`Nobody has entered what ${order.currency} is worth: enter a rate that holds today first, so that its costs can be reckoned`);
    await changeOrder(tx, id, version, { state: 'sent', sentAt: now, sentBy: caller.name, sentHow, rate });
    await tellChange(tx, id, caller, now, 'sent', sentHow);
    return wholeOrder(tx, id);
  }

  /** The supplier was asked when it comes. */
  async markChased(tx: Reader, caller: Caller, id: string, version: number): Promise<void> {
    await held(tx, id, 'chase');
    await changeOrder(tx, id, version, {});
    await tellChange(tx, id, caller, this.clock.now(), 'chased', 'e-mail');
  }

  promise(caller: Caller, id: string, version: number, promisedOn: string): Promise<OrderView> {
    return this.change(id, 'promise', async (tx, { sentAt }, now) => {
      if (sentAt !== null && promisedOn < dayOf(sentAt)) throw faultIn('promisedOn', `must not be before ${dayOf(sentAt)}, when the order was sent`);
      await changeOrder(tx, id, version, { promisedOn: dateOf(promisedOn) });
      await tellChange(tx, id, caller, now, 'promised', `for ${promisedOn}`);
    });
  }

  /** Nothing more comes: the rest is given up. */
  close(caller: Caller, id: string, version: number, reason: string): Promise<OrderView> {
    return this.change(id, 'close', async (tx, { lines, returns }, now) => {
      if (arrivalOf(lines, returns) !== 'all' && reason.trim() === '') throw faultIn('reason', 'say why the rest of the order is given up');
      await changeOrder(tx, id, version, { state: 'closed', endedAt: now, endedBy: caller.name, endReason: reason });
      await tellChange(tx, id, caller, now, 'closed', reason);
    });
  }

  cancel(caller: Caller, id: string, version: number, reason: string): Promise<OrderView> {
    return this.change(id, 'cancel', async (tx, { lines, returns }, now) => {
      if (arrivalOf(lines, returns) !== 'nothing') throw new Conflict('Something of the order has come: close it instead, which gives up the rest');
      await changeOrder(tx, id, version, { state: 'cancelled', endedAt: now, endedBy: caller.name, endReason: reason });
      await tellChange(tx, id, caller, now, 'cancelled', reason);
    });
  }

  private change(id: string, act: OrderAct, work: (tx: Reader, order: WholeOrder, now: Date) => Promise<void>): Promise<OrderView> {
    return this.database.write(async (tx) => {
      await work(tx, await held(tx, id, act), this.clock.now());
      return view(tx, id);
    });
  }

  private async checkLimit(tx: Reader, caller: Caller, { currency, lines }: WholeOrder, now: Date): Promise<void> {
    const { managerApprovesAbove: limit, reckoningCurrency } = await readSettings(tx);
    if (limit === null || caller.role === 'manager') return;
    const { value, withoutPrice } = orderValue(lines.map(({ quantity, price }) => ({ quantity: quantity.toFixed(), price: price?.toFixed() ?? null })));
    const rate = await rateOn(tx, currency, now);
    if (withoutPrice > 0 || rate === null) {
      throw new Conflict(
        `What the order is worth is not known (${rate === null ? `no rate of ${currency}` : `${withoutPrice} lines without a price`}): complete it, or let a manager approve it`,
      );
    }
    const worth = product(value, rate);
    if ((millionthsOf(worth) ?? 0n) > (millionthsOf(limit.toFixed()) ?? 0n)) {
      throw new Conflict(`The order is worth ${worth} ${reckoningCurrency}, and above ${limit.toFixed()} a manager approves`);
    }
  }
}

/** Refuses what cannot be done to the order as it is. */
export async function held(tx: Reader, id: string, act: OrderAct): Promise<WholeOrder> {
  const order = await holdOrder(tx, id);
  const refusal = actRefusal(order.no, act, order.state as OrderState);
  if (refusal !== null) throw new Conflict(refusal);
  return order;
}

export async function view(tx: Reader, id: string): Promise<OrderView> {
  const order = await wholeOrder(tx, id);
  return orderView(order, (await placeNames(tx, [order.placeId])).get(order.placeId) ?? '');
}
