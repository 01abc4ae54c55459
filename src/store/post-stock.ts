import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type FieldProblem, faultIn, InvalidRequest, NotFound, type Reader } from '../app/index.js';
import { momentOf } from '../registry/index.js';
import { Ledger, type Posted } from './ledger.js';
import { findPost } from './ledger.repository.js';
import { vanOf } from './places.repository.js';
import type { ReversalDto, StockPostDto, StockPostView } from './stock.dto.js';
import { StockList } from './stock-list.js';
import { NotOnHand } from './store.errors.js';

/** Stock that people move by hand. */
@Injectable()
export class PostStock {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly list: StockList,
    private readonly clock: Clock,
  ) {}

  post(caller: Caller, { id, kind, at, note, moves, countWasWrong }: StockPostDto): Promise<StockPostView> {
    if ((kind === 'correct' || kind === 'scrap') && note.trim() === '') throw faultIn('note', 'say why: what is scrapped or corrected is asked about later');
    const asked = moves.map(({ itemId, lot = null, partId = null, quantity, fromPlaceId = null, toPlaceId = null }) => ({
      itemId,
      lot,
      partId,
      quantity,
      fromPlaceId,
      toPlaceId,
    }));
    return this.database.write(async (tx) => {
      if (caller.role === 'technician') await checkOwnVan(tx, caller, asked);
      const post = { id, kind, at: momentOf(at, this.clock.now()), caller, note, moves: asked, countWasWrong };
      refuseShort(await this.ledger.post(tx, post));
      return this.list.post(id, tx);
    });
  }

  reverse(caller: Caller, postId: string, { id, at, note }: ReversalDto): Promise<StockPostView> {
    return this.database.write(async (tx) => {
      const post = await findPost(tx, postId);
      if (post === null) throw new NotFound('stock post', postId);
      if (post.reportId !== null) throw new Conflict('This post is part of a job report. Settle it there, or correct the stock by a post of its own');
      refuseShort(await this.ledger.reverse(tx, postId, { id, at: momentOf(at, this.clock.now()), caller, note }));
      return this.list.post(id, tx);
    });
  }
}

/** A technician moves what comes from, or goes to, their own van. */
async function checkOwnVan(tx: Reader, caller: Caller, moves: readonly { fromPlaceId: string | null; toPlaceId: string | null }[]): Promise<void> {
  const van = await vanOf(tx, caller.id);
  if (van === null) throw new InvalidRequest('You have no van on record. A storekeeper or manager can give you one');
  const problems = moves.flatMap(({ fromPlaceId, toPlaceId }, at): FieldProblem[] => {
    const field = toPlaceId === null ? 'fromPlaceId' : 'toPlaceId';
    const message = `one end must be your own van, ${van.name}: other stock is moved by a storekeeper or manager`;
    return fromPlaceId === van.id || toPlaceId === van.id ? [] : [{ pointer: `#/moves/${at}/${field}`, message }];
  });
  if (problems.length > 0) throw new InvalidRequest('The post moves stock that is not yours to move', problems);
}

function refuseShort(posted: Posted): void {
  if (posted.kind !== 'short') return;
  const problems = posted.lines.flatMap(({ itemCode, placeName, lot, onHand, asked, moves }) =>
    moves.map((at) => ({
      pointer: `#/moves/${at}/quantity`,
      message: `${placeName} holds ${onHand} of ${itemCode}${lot === null ? '' : `, lot ${lot}`}, and ${asked} are asked for. Ask for less, or say that the count was wrong (countWasWrong)`,
    })),
  );
  throw new NotOnHand('Stock would go below zero; nothing was moved', problems);
}
