import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type FieldProblem, faultIn, InvalidRequest, NotFound, type Reader } from '../../app/index.js';
import { dateOf, dayOf, momentOf } from '../../registry/index.js';
import { inUseUnits } from '../core/orders/line-progress.js';
import { unitCost } from '../core/orders/order-value.js';
import type { OwnerKind } from '../core/pick-lines.js';
import { millionthsOf, quantityText } from '../core/quantity.js';
import { useUnitsIn } from '../core/supply/unit-factor.js';
import { Ledger } from '../ledger.js';
import { PostIdUsed } from '../store.errors.js';
import { held, view } from './change-orders.js';
import type { OrderView } from './order-views.dto.js';
import { arrivalOf, progressOf } from './order-views.js';
import { changeOrder, enterReceipt, findReceipt, markTakenBack, tellChange } from './order-writes.repository.js';
import { holdOrder, type WholeOrder, wholeOrder } from './orders.repository.js';
import type { ReceiptDto, ReceiptLineDto, TakeBackDto } from './receiving.dto.js';

/** A line of a receipt, in units of use. */
interface Received {
  readonly lineId: string;
  readonly itemId: string;
  /** What came instead of what was ordered */
  readonly insteadId: string | null;
  readonly outcome: ReceiptLineDto['outcome'];
  readonly quantity: string;
  readonly placeId: string | null;
  readonly lot: string | null;
  readonly expiresOn: string | null;
  readonly note: string;
}

interface Owner {
  readonly kind: OwnerKind;
  readonly id: string | null;
}

interface CheckedReceipt {
  readonly input: ReceiptDto;
  readonly owner: Owner;
  readonly requestHash: string;
  readonly received: readonly Received[];
  readonly at: Date;
}

/** What comes on an order: in parts, too much or too little, damaged or wrong. What is taken in is posted to the ledger in the same transaction. */
@Injectable()
export class ReceiveOrder {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly clock: Clock,
  ) {}

  receive(caller: Caller, orderId: string, input: ReceiptDto): Promise<OrderView> {
    const requestHash = createHash('sha256').update(JSON.stringify(input)).digest('hex');
    return this.database.write(async (tx) => {
      await holdOrder(tx, orderId);
      const earlier = await findReceipt(tx, input.id);
      if (earlier !== null) return knownReceipt(tx, earlier, orderId, requestHash);
      const order = await held(tx, orderId, 'receive');
      const at = momentOf(input.at, this.clock.now());
      const received = readLines(order, input, dayOf(at));
      await this.enter(tx, caller, order, { input, owner: ownerOf(order, input), requestHash, received, at });
      return view(tx, orderId);
    });
  }

  /** Takes back a receipt that was entered wrongly, with what it put into stock. */
  takeBack(caller: Caller, orderId: string, receiptId: string, { id, reason }: TakeBackDto): Promise<OrderView> {
    return this.database.write(async (tx) => {
      const order = await holdOrder(tx, orderId);
      const receipt = await findReceipt(tx, receiptId);
      if (receipt?.orderId !== orderId) throw new NotFound('receipt of this order', receiptId);
      if (receipt.takenBackAt !== null) throw new Conflict('This receipt was taken back already');
      if (order.state === 'cancelled') throw new Conflict(`Order ${order.no} is cancelled`);
      const now = this.clock.now();
      if (receipt.postId !== null) {
        const posted = await this.ledger.reverse(tx, receipt.postId, { id, at: now, caller, note: reason });
        if (posted.kind === 'short') {
          const missing = posted.lines.map(({ itemCode, placeName, onHand, asked }) => `${placeName} holds ${onHand} of ${itemCode}, and ${asked} came`);
          throw new Conflict(`What came was used or moved since: ${missing.join('; ')}. Bring it back there first, or correct the stock by a post of its own`);
        }
      }
      await markTakenBack(tx, receiptId, now);
      await changeOrder(tx, orderId, null, { state: 'sent', endedAt: null, endedBy: null, endReason: '' });
      await tellChange(tx, orderId, caller, now, 'taken back', `the receipt of ${dayOf(receipt.at)}: ${reason}`);
      return view(tx, orderId);
    });
  }

  private async enter(tx: Reader, caller: Caller, order: WholeOrder, { input, owner, requestHash, received, at }: CheckedReceipt): Promise<void> {
    const { id, deliveryNote, note } = input;
    const now = this.clock.now();
    const stocked = received.flatMap((part, line) => stockMove(order, part, owner).map((move) => ({ line, move })));
    const postId = stocked.length === 0 ? null : id;
    const about = `Order ${order.no}${deliveryNote === '' ? '' : `, delivery ${deliveryNote}`}${note === '' ? '' : `: ${note}`}`.slice(0, 500);
    if (postId !== null) {
      const post = { id: postId, kind: 'receive' as const, at, caller, note: about, moves: stocked.map(({ move }) => move) };
      await this.ledger.post(tx, post).catch((error: unknown) => {
        throw error instanceof InvalidRequest ? new InvalidRequest(error.message, error.fields.map(inReceipt(stocked))) : error;
      });
    }
    await enterReceipt(
      tx,
      { id, orderId: order.id, at, enteredAt: now, byId: caller.id, by: caller.name, deliveryNote, note, requestHash, postId },
      received.map(({ lineId, outcome, insteadId, quantity, placeId, lot, expiresOn, note: of }) => ({
        lineId,
        outcome,
        itemId: insteadId,
        quantity,
        placeId,
        lot,
        expiresOn: expiresOn === null ? null : dateOf(expiresOn),
        note: of,
      })),
    );
    await tellChange(tx, order.id, caller, now, 'received', received.map((part) => inWords(order, part)).join('; '));
    const { lines, returns } = await wholeOrder(tx, order.id);
    const all = arrivalOf(lines, returns) === 'all';
    await changeOrder(tx, order.id, null, all ? { state: 'closed', endedAt: now, endedBy: caller.name } : {});
    if (all) await tellChange(tx, order.id, caller, now, 'closed', 'all has come');
  }
}

/** What goes into stock, with what it cost where it is what was ordered; nothing where it was not taken in. */
function stockMove({ lines, rate }: WholeOrder, { lineId, itemId, insteadId, outcome, quantity, placeId, lot, expiresOn }: Received, owner: Owner) {
  const item = outcome === 'wrong' ? insteadId : itemId;
  if (placeId === null || item === null) return [];
  const line = lines.find(({ id }) => id === lineId);
  const paid = { price: line?.price?.toFixed() ?? null, unitsPerPurchase: line?.unitsPerPurchase.toFixed() ?? '1', rate: rate?.toFixed() ?? null };
  const cost = outcome === 'good' && owner.kind === 'us' ? unitCost(paid) : null;
  // Money has four decimals.
  return [
    {
      itemId: item,
      lot,
      partId: null,
      quantity,
      fromPlaceId: null,
      toPlaceId: placeId,
      owner,
      expiresOn,
      unitCost: cost === null ? null : Number(cost).toFixed(4),
    },
  ];
}

/** Whose what comes is; refuses one who is not named where they must be, or named where they need not be. */
function ownerOf({ supplier, supplierId }: WholeOrder, { owner, ownerId }: ReceiptDto): Owner {
  const kind = owner ?? 'us';
  const id = ownerId ?? null;
  if (kind === 'client' && id === null) throw faultIn('ownerId', 'say which client it belongs to');
  if (kind === 'us' && id !== null) throw faultIn('ownerId', 'what is ours has no other owner: leave it out, or say in owner that it is a client’s');
  if (kind === 'supplier' && id !== null && id !== supplierId) throw faultIn('ownerId', `the order is with ${supplier.name}: leave it out`);
  return { kind, id: kind === 'supplier' ? supplierId : id };
}

/** The field of the receipt that a field of the stock post was made from. */
const inReceipt =
  (stocked: readonly { readonly line: number }[]) =>
  ({ pointer, message }: FieldProblem): FieldProblem => {
    const [, , move, field] = pointer.split('/');
    if (field === 'owner' || field === 'ownerId') return { pointer: `#/${field}`, message };
    const line = stocked[Number(move)]?.line;
    return { pointer: line === undefined ? '#/lines' : `#/lines/${line}/${field === 'toPlaceId' ? 'placeId' : (field ?? 'lineId')}`, message };
  };

function knownReceipt(tx: Reader, earlier: { orderId: string; requestHash: string }, orderId: string, requestHash: string): Promise<OrderView> {
  if (earlier.orderId === orderId && earlier.requestHash === requestHash) return view(tx, orderId);
  throw new PostIdUsed('A receipt with this id was entered with another content. Make a new id for another receipt');
}

/** The lines in units of use; refuses what cannot be so. */
function readLines(order: WholeOrder, { lines, keepMore }: ReceiptDto, day: string): Received[] {
  const problems: FieldProblem[] = [];
  const received = lines.flatMap((line, at): Received[] => {
    const read = readLine(order, line, day);
    if (!('message' in read)) return [read];
    problems.push({ pointer: `#/lines/${at}/${read.field}`, message: read.message });
    return [];
  });
  if (!keepMore) problems.push(...tooMuch(order, received, lines));
  if (problems.length > 0) throw new InvalidRequest('The receipt has lines that need a change; nothing was received', problems);
  return received;
}

function readLine(order: WholeOrder, line: ReceiptLineDto, day: string): Received | { field: keyof ReceiptLineDto; message: string } {
  const { lineId, outcome, itemId = null, lot = null, expiresOn = null, note = '' } = line;
  const ordered = order.lines.find(({ id }) => id === lineId);
  if (ordered === undefined) return { field: 'lineId', message: `must be a line of order ${order.no}` };
  const useUnit = ordered.item.unit;
  const unit = line.unit ?? useUnit;
  const factor = useUnitsIn(unit, { useUnit, purchaseUnit: ordered.unit, unitsPerPurchase: ordered.unitsPerPurchase.toNumber() });
  if (factor === null)
    return { field: 'unit', message: `${unit} does not convert to ${useUnit}: count in ${useUnit} or in ${ordered.unit}, as it was ordered` };
  if (itemId !== null && outcome !== 'wrong') return { field: 'itemId', message: 'is of a wrong delivery alone: leave it out' };
  if (outcome === 'good' && expiresOn !== null && expiresOn < day) {
    return { field: 'expiresOn', message: `it was past its expiry when it came on ${day}: enter it as damaged, and return it` };
  }
  const placeId = line.placeId ?? (outcome === 'good' ? order.placeId : null);
  if (outcome === 'wrong' && placeId !== null && itemId === null)
    return { field: 'itemId', message: 'say which item came instead, so that it can be taken in; or leave out the place where it is not taken in' };
  return { lineId, itemId: ordered.itemId, insteadId: itemId, outcome, quantity: inUseUnits(line.quantity, String(factor)), placeId, lot, expiresOn, note };
}

/** Lines by which more than is still open would be taken in. */
function tooMuch(order: WholeOrder, received: readonly Received[], lines: readonly ReceiptLineDto[]): FieldProblem[] {
  return order.lines.flatMap((line) => {
    const came = received
      .filter(({ lineId, outcome }) => lineId === line.id && outcome === 'good')
      .reduce((sum, { quantity }) => sum + (millionthsOf(quantity) ?? 0n), 0n);
    const { open } = progressOf(line, order.returns);
    if (came <= (millionthsOf(open) ?? 0n)) return [];
    const at = lines.findLastIndex(({ lineId, outcome }) => lineId === line.id && outcome === 'good');
    const message = `${open} ${line.item.unit} of ${line.item.code} are still open, and ${quantityText(came)} came. Say that the rest is kept (keepMore), or receive ${open} and return the rest`;
    return [{ pointer: `#/lines/${at}/quantity`, message }];
  });
}

function inWords({ lines }: WholeOrder, { lineId, outcome, quantity, lot }: Received): string {
  const line = lines.find(({ id }) => id === lineId);
  return `${quantity} ${line?.item.unit ?? ''} of ${line?.item.code ?? ''}${lot === null ? '' : `, lot ${lot}`}${outcome === 'good' ? '' : `, ${outcome}`}`;
}
