import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, type KeyedRequest, KeyedWork, viewOf } from '../../app/index.js';
import { MakeOrders } from '../orders/make-orders.js';
import { DraftsView } from '../orders/order-views.dto.js';
import type { WantedLineDto } from '../orders/orders.dto.js';
import { acceptedLines, endOrdered } from './decisions.repository.js';
import { JointOrders } from './joint/joint-orders.js';
import { RecomputeReorder } from './recompute-reorder.js';
import type { OrderAcceptedDto } from './reorder.dto.js';

/** Puts what was accepted into draft orders, one for each supplier and place. */
@Injectable()
export class OrderAccepted {
  constructor(
    private readonly work: KeyedWork,
    private readonly orders: MakeOrders,
    private readonly joint: JointOrders,
    private readonly recompute: RecomputeReorder,
    private readonly clock: Clock,
  ) {}

  async order(caller: Caller, key: KeyedRequest, { supplierId = null, placeId = null, takeAlong = false }: OrderAcceptedDto): Promise<DraftsView> {
    const ordered: string[] = [];
    let taken: readonly WantedLineDto[] = [];
    const drafts = await this.work.run(key, async (tx) => {
      const accepted = await acceptedLines(tx, { supplierId, placeId });
      if (accepted.length === 0) throw new Conflict('Nothing that is to be bought is accepted. Accept lines of the reorder list first');
      const wanted = accepted.map(({ id, reason, reasons, neededBy, ...line }) => ({
        ...line,
        neededOn: neededBy,
        reason: (reason === '' ? (reasons ?? '') : reason).slice(0, 500),
        proposalId: id,
      }));
      taken = takeAlong ? await this.joint.along(tx, placeId, supplierId) : [];
      const { leftOut, ...made } = await this.orders.drafts(tx, caller, [...wanted, ...taken]);
      const ended = await endOrdered(
        tx,
        accepted.map(({ id }) => id),
        this.clock.now(),
        caller.name,
      );
      ordered.push(...ended.map(({ itemId }) => itemId));
      // What nobody accepted is not missed where it is not taken along.
      return viewOf(DraftsView, { ...made, leftOut: leftOut.filter(({ line }) => line < wanted.length) });
    });
    // Read when the orders are there for all to see: they are on order from now on.
    const items = new Set([...ordered, ...taken.map(({ itemId }) => itemId)]);
    if (items.size > 0) await this.recompute.ofItems([...items]);
    return drafts;
  }
}
