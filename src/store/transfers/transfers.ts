import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type FieldProblem, faultIn, InvalidRequest, NotFound, type Reader, toPage, viewOf } from '../../app/index.js';
import { dateOf, momentOf } from '../../registry/index.js';
import type { Move } from '../core/apply-moves.js';
import { millionthsOf, quantityText } from '../core/quantity.js';
import { Ledger } from '../ledger.js';
import { mayMoveFrom } from '../own-van.js';
import { refuseShort } from '../short-in-words.js';
import { PostIdUsed } from '../store.errors.js';
import { type ArriveDto, type ArriveLineDto, type SendDto, TransferLineView, TransfersPageView, type TransfersQuery, TransferView } from './transfers.dto.js';
import { endTransfer, enterTransfer, holdTransfer, type LineRow, placeToSendTo, transferHeads, transferLines, transitPlace } from './transfers.repository.js';

/** Goods that travel between two places: they leave one, lie on the way, and arrive, all of them or not. */
@Injectable()
export class Transfers {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly clock: Clock,
  ) {}

  async list(query: TransfersQuery): Promise<TransfersPageView> {
    const reader = this.database.prisma;
    const heads = await transferHeads(reader, query);
    const lines = await transferLines(
      reader,
      heads.map(({ id }) => id),
    );
    return viewOf(
      TransfersPageView,
      toPage(
        heads,
        query.limit,
        (head) => viewOf(TransferView, { ...head, lines: linesOf(lines, head.id) }),
        ({ sentAt, id }) => [sentAt.toISOString(), id],
      ),
    );
  }

  read(id: string): Promise<TransferView> {
    return readTransfer(this.database.prisma, id);
  }

  send(caller: Caller, { id, fromPlaceId, toPlaceId, at, expectedOn = null, note = '', lines, expiredReason = '' }: SendDto): Promise<TransferView> {
    if (fromPlaceId === toPlaceId) throw faultIn('toPlaceId', 'must be another place than the one it comes from');
    return this.database.write(async (tx) => {
      await mayMoveFrom(tx, caller, [fromPlaceId, toPlaceId]);
      const transit = await transitPlace(tx);
      await checkGoal(tx, toPlaceId);
      const sentAt = momentOf(at, this.clock.now());
      await enterTransfer(tx, { id, fromPlaceId, toPlaceId, sentAt, sentBy: caller.name, expectedOn: expectedOn === null ? null : dateOf(expectedOn), note });
      const transfer = await holdTransfer(tx, id);
      if (transfer === null || transfer.fromPlaceId !== fromPlaceId || transfer.toPlaceId !== toPlaceId) {
        throw new PostIdUsed('A transfer with this id goes between other places. Make a new id for another transfer');
      }
      const moves = lines.map(({ itemId, lot = null, partId = null, quantity }) => ({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId: transit }));
      const posted = await this.ledger.post(tx, { id, kind: 'send', at: sentAt, caller, note, transferId: id, moves, expiredReason });
      refuseShort(posted, (line) => `#/lines/${line}/quantity`);
      return readTransfer(tx, id);
    });
  }

  arrive(caller: Caller, id: string, input: ArriveDto): Promise<TransferView> {
    const { at, note = '', lines, giveUpRest, keepMore } = input;
    if ((giveUpRest || keepMore) && note.trim() === '') throw faultIn('note', 'say why: what is lost or found is asked about later');
    return this.database.write(async (tx) => {
      const transfer = await holdTransfer(tx, id);
      if (transfer === null) throw new NotFound('transfer', id);
      await mayMoveFrom(tx, caller, [transfer.fromPlaceId, transfer.toPlaceId]);
      if (await this.ledger.isKnown(tx, { id: input.id, kind: 'arrive', asked: input })) return readTransfer(tx, id);
      if (transfer.endedAt !== null) throw new Conflict('This transfer has ended: all has come, or the rest was given up');
      const open = await transferLines(tx, [id]);
      const moves = arrivalMoves(open, lines, { transit: await transitPlace(tx), toPlaceId: transfer.toPlaceId, giveUpRest, keepMore });
      if (moves.length === 0) throw faultIn('lines', 'say what came, or that nothing more is awaited (giveUpRest)');
      const when = momentOf(at, this.clock.now());
      refuseShort(
        await this.ledger.post(tx, { id: input.id, kind: 'arrive', at: when, caller, note, transferId: id, moves, exact: true, asked: input }),
        () => '#/lines',
      );
      const rest = await transferLines(tx, [id]);
      if (rest.every(({ onTheWay }) => millionthsOf(onTheWay) === 0n)) await endTransfer(tx, id, when);
      return readTransfer(tx, id);
    });
  }
}

interface Arrival {
  readonly transit: string;
  readonly toPlaceId: string;
  readonly giveUpRest: boolean;
  readonly keepMore: boolean;
}

/** What came goes on to its place; what was given up leaves; what came beyond what was sent is found. */
function arrivalMoves(open: readonly LineRow[], lines: readonly ArriveLineDto[], { transit, toPlaceId, giveUpRest, keepMore }: Arrival): Move[] {
  const problems: FieldProblem[] = [];
  const left = new Map(open.map((line) => [keyOf(line), { line, size: millionthsOf(line.onTheWay) ?? 0n }]));
  const moves = lines.flatMap(({ itemId, lot = null, partId = null, ownerId = null, quantity }, at): Move[] => {
    const known = left.get(keyOf({ itemId, lot, partId, ownerId }));
    const came = millionthsOf(quantity) ?? 0n;
    if (known === undefined && !keepMore) {
      problems.push({
        pointer: `#/lines/${at}/itemId`,
        message: 'this was not sent with the transfer. Say the line as it was sent, or that it is kept all the same (keepMore)',
      });
      return [];
    }
    const sent = known === undefined ? 0n : came < known.size ? came : known.size;
    const more = came - sent;
    if (more > 0n && !keepMore) {
      const { itemCode = '', unit = '' } = known?.line ?? {};
      problems.push({
        pointer: `#/lines/${at}/quantity`,
        message: `${quantityText(sent)} ${unit} of ${itemCode} are still on the way, and ${quantity} came. Say that the rest is kept (keepMore), or enter ${quantityText(sent)}`,
      });
    }
    if (known !== undefined) known.size -= sent;
    const owner = { kind: known?.line.owner ?? ('us' as const), id: known === undefined ? null : ownerId };
    const move = { itemId, lot, partId, owner, toPlaceId };
    return [
      ...(sent > 0n ? [{ ...move, fromPlaceId: transit, quantity: quantityText(sent) }] : []),
      ...(more > 0n ? [{ ...move, fromPlaceId: null, quantity: quantityText(more) }] : []),
    ];
  });
  if (problems.length > 0) throw new InvalidRequest('The arrival has lines that need a change; nothing was moved', problems);
  if (!giveUpRest) return moves;
  const lost = [...left.values()].filter(({ size }) => size > 0n);
  return [
    ...moves,
    ...lost.map(({ line: { itemId, lot, partId, owner, ownerId }, size }) => ({
      itemId,
      lot,
      partId,
      owner: { kind: owner, id: ownerId },
      quantity: quantityText(size),
      fromPlaceId: transit,
      toPlaceId: null,
    })),
  ];
}

const keyOf = ({ itemId, lot, partId, ownerId }: Pick<LineRow, 'itemId' | 'lot' | 'partId' | 'ownerId'>) => JSON.stringify([itemId, lot, partId, ownerId]);

async function checkGoal(tx: Reader, id: string): Promise<void> {
  const place = await placeToSendTo(tx, id);
  if (place === null) throw faultIn('toPlaceId', 'there is no such place');
  if (place.endedOn !== null) throw faultIn('toPlaceId', `${place.name} has ended: no stock is sent there any more`);
  if (place.kind === 'transit' || place.kind === 'repair') throw faultIn('toPlaceId', `${place.name} is no place to send stock to: say the store, van or site`);
}

async function readTransfer(reader: Reader, id: string): Promise<TransferView> {
  const [head] = await transferHeads(reader, { limit: 1 }, id);
  if (head === undefined) throw new NotFound('transfer', id);
  return viewOf(TransferView, { ...head, lines: linesOf(await transferLines(reader, [id]), id) });
}

const linesOf = (lines: readonly LineRow[], id: string) =>
  lines.filter(({ transferId }) => transferId === id).map(({ transferId: _of, ...line }) => viewOf(TransferLineView, line));
