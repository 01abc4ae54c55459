import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Database, type FieldProblem, InvalidRequest, type Reader } from '../../app/index.js';
import { dayOf, momentOf } from '../../registry/index.js';
import { millionthsOf, quantityText } from '../core/quantity.js';
import { Ledger } from '../ledger.js';
import { NotOnHand, PostIdUsed } from '../store.errors.js';
import { held, view } from './change-orders.js';
import type { OrderView } from './order-views.dto.js';
import { arrivalOf } from './order-views.js';
import { changeOrder, enterReturn, findReturn, tellChange } from './order-writes.repository.js';
import { holdOrder, type WholeOrder, wholeOrder } from './orders.repository.js';
import type { ReturnLineDto, SupplierReturnDto } from './receiving.dto.js';

/** What goes back to a supplier: out of stock, and awaited anew where the supplier replaces it. */
@Injectable()
export class ReturnGoods {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly clock: Clock,
  ) {}

  send(caller: Caller, orderId: string, input: SupplierReturnDto): Promise<OrderView> {
    const requestHash = createHash('sha256').update(JSON.stringify(input)).digest('hex');
    return this.database.write(async (tx) => {
      await holdOrder(tx, orderId);
      const earlier = await findReturn(tx, input.id);
      if (earlier !== null) {
        if (earlier.orderId === orderId && earlier.requestHash === requestHash) return view(tx, orderId);
        throw new PostIdUsed('A return with this id was entered with another content. Make a new id for another return');
      }
      const order = await held(tx, orderId, 'return');
      checkLines(order, input.lines);
      await this.enter(tx, caller, order, input, requestHash);
      return view(tx, orderId);
    });
  }

  private async enter(tx: Reader, caller: Caller, order: WholeOrder, { id, at, reason, lines }: SupplierReturnDto, requestHash: string): Promise<void> {
    const now = this.clock.now();
    const moment = momentOf(at, now);
    const back = lines.map(({ itemId = null, lot = null, ...line }) => ({
      ...line,
      lot,
      itemId: itemId ?? order.lines.find((one) => one.id === line.lineId)?.itemId ?? '',
    }));
    const moves = back.map(({ itemId, lot, quantity, placeId }) => ({ itemId, lot, partId: null, quantity, fromPlaceId: placeId, toPlaceId: null }));
    const posted = await this.ledger.post(tx, {
      id,
      kind: 'send back',
      at: moment,
      caller,
      note: `Returned to the supplier, order ${order.no}: ${reason}`.slice(0, 500),
      moves,
    });
    if (posted.kind === 'short') {
      const problems = posted.lines.flatMap(({ placeName, onHand, itemCode, asked, moves: of }) =>
        of.map((line) => ({
          pointer: `#/lines/${line}/quantity`,
          message: `${placeName} holds ${onHand} of ${itemCode}, and ${asked} are to go back: say where the rest lies`,
        })),
      );
      throw new NotOnHand('What is to go back does not lie there; nothing was moved', problems);
    }
    await enterReturn(tx, { id, orderId: order.id, at: moment, byId: caller.id, by: caller.name, reason, requestHash, postId: id }, back);
    const words = back.map(
      ({ quantity, lineId, replaced }) =>
        `${quantity} of ${order.lines.find((one) => one.id === lineId)?.item.code ?? ''}${replaced ? ', to be replaced' : ''}`,
    );
    await tellChange(tx, order.id, caller, now, 'returned', `${words.join('; ')} on ${dayOf(moment)}: ${reason}`);
    const after = await wholeOrder(tx, order.id);
    const awaited = after.state === 'closed' && lines.some(({ replaced }) => replaced) && arrivalOf(after.lines, after.returns) !== 'all';
    await changeOrder(tx, order.id, null, awaited ? { state: 'sent', endedAt: null, endedBy: null, endReason: '' } : {});
  }
}

/** No more goes back of a line than came of it in this way. */
function checkLines(order: WholeOrder, lines: readonly ReturnLineDto[]): void {
  const problems = lines.flatMap(({ lineId, outcome, itemId = null, quantity }, at): FieldProblem[] => {
    const problem = (field: keyof ReturnLineDto, message: string) => [{ pointer: `#/lines/${at}/${field}`, message }];
    const line = order.lines.find(({ id }) => id === lineId);
    if (line === undefined) return problem('lineId', `must be a line of order ${order.no}`);
    if (outcome === 'wrong' && itemId === null) return problem('itemId', 'say which item came wrongly');
    if (outcome !== 'wrong' && itemId !== null && itemId !== line.itemId) return problem('itemId', 'is of what came wrongly alone: leave it out');
    const came = sum(line.received.filter((part) => part.outcome === outcome).map((part) => part.quantity.toFixed()));
    const before = sum(
      order.returns.flatMap((back) => back.lines.filter((one) => one.lineId === lineId && one.outcome === outcome).map((one) => one.quantity.toFixed())),
    );
    const now = sum(lines.filter((one, other) => other <= at && one.lineId === lineId && one.outcome === outcome).map((one) => one.quantity));
    if (before + now <= came) return [];
    return problem(
      'quantity',
      `${quantityText(came)} of ${line.item.code} came as ${outcome}, and ${quantityText(before)} went back before: ${quantity} more are not there to go back`,
    );
  });
  if (problems.length > 0) throw new InvalidRequest('The return has lines that need a change; nothing was moved', problems);
}

const sum = (quantities: readonly string[]): bigint => quantities.reduce((total, quantity) => total + (millionthsOf(quantity) ?? 0n), 0n);
