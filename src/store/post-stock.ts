import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, type FieldProblem, faultIn, InvalidRequest, NotFound, type Reader } from '../app/index.js';
import { momentOf } from '../registry/index.js';
import type { Move } from './core/apply-moves.js';
import { Ledger } from './ledger.js';
import { findPost } from './ledger.repository.js';
import { vanOf } from './places.repository.js';
import { refuseShort } from './short-in-words.js';
import type { ReversalDto, StockMoveDto, StockPostDto, StockPostView } from './stock.dto.js';
import { StockList } from './stock-list.js';

/** Stock that people move by hand. */
@Injectable()
export class PostStock {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly list: StockList,
    private readonly clock: Clock,
  ) {}

  async post(caller: Caller, { id, kind, at, note, moves, countWasWrong, expiredReason = '' }: StockPostDto): Promise<StockPostView> {
    if ((kind === 'correct' || kind === 'scrap') && note.trim() === '') throw faultIn('note', 'say why: what is scrapped or corrected is asked about later');
    const asked = moves.map(toMove);
    await this.database.write(async (tx) => {
      if (caller.role === 'technician') await checkOwnVan(tx, caller, asked);
      const post = { id, kind, at: momentOf(at, this.clock.now()), caller, note, moves: asked, countWasWrong, expiredReason };
      refuseShort(await this.ledger.post(tx, post));
    });
    // Read when the locks are gone: others wait for them.
    return this.list.post(id);
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

const toMove = ({
  itemId,
  lot = null,
  partId = null,
  quantity,
  fromPlaceId = null,
  toPlaceId = null,
  owner,
  ownerId = null,
  unitCost,
  expiresOn,
}: StockMoveDto): Move => {
  const whose = owner ?? (ownerId === null ? null : 'us');
  return {
    itemId,
    lot,
    partId,
    quantity,
    fromPlaceId,
    toPlaceId,
    unitCost,
    expiresOn,
    ...(whose === null ? {} : { owner: { kind: whose, id: ownerId } }),
  };
};

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
