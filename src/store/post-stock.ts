import { Injectable } from '@nestjs/common';
import { type Caller, Clock, Conflict, Database, faultIn, NotFound } from '../app/index.js';
import { momentOf } from '../registry/index.js';
import type { Move } from './core/apply-moves.js';
import { Ledger } from './ledger.js';
import { findPost, orderOfPost } from './ledger.repository.js';
import { checkOwnVan } from './own-van.js';
import { PostsTogether } from './posts-together.js';
import { anyRepairer } from './repairs/repairs.repository.js';
import { refuseShort } from './short-in-words.js';
import type { ReversalDto, StockMoveDto, StockPostDto, StockPostView } from './stock.dto.js';
import { StockList } from './stock-list.js';

/** Stock that people move by hand. */
@Injectable()
export class PostStock {
  constructor(
    private readonly database: Database,
    private readonly ledger: Ledger,
    private readonly together: PostsTogether,
    private readonly list: StockList,
    private readonly clock: Clock,
  ) {}

  async post(caller: Caller, { id, kind, at, note, moves, countWasWrong, expiredReason = '' }: StockPostDto): Promise<StockPostView> {
    if ((kind === 'correct' || kind === 'scrap') && note.trim() === '') throw faultIn('note', 'say why: what is scrapped or corrected is asked about later');
    const asked = moves.map(toMove);
    await checkOwnVan(this.database.prisma, caller, asked);
    const post = { id, kind, at: momentOf(at, this.clock.now()), caller, note, moves: asked, byHand: true, countWasWrong, expiredReason };
    refuseShort(await this.together.post(post));
    // Read when the locks are gone: others wait for them.
    return this.list.post(id);
  }

  reverse(caller: Caller, postId: string, { id, at, note }: ReversalDto): Promise<StockPostView> {
    return this.database.write(async (tx) => {
      const post = await findPost(tx, postId);
      if (post === null) throw new NotFound('stock post', postId);
      if (post.reportId !== null) throw new Conflict('This post is part of a job report. Settle it there, or correct the stock by a post of its own');
      if (post.transferId !== null) throw new Conflict('This post is part of a transfer. Enter there what came, or send it back');
      if (post.kind === 'repair' || post.kind === 'repaired' || (post.kind === 'scrap' && (await anyRepairer(tx, placesOf(post.moves)))))
        throw new Conflict('This post is part of a repair. Enter there how it came back, and transfer it');
      const order = await orderOfPost(tx, postId);
      if (order !== null) throw new Conflict(ofOrder(order));
      refuseShort(await this.ledger.reverse(tx, postId, { id, at: momentOf(at, this.clock.now()), caller, note }));
      return this.list.post(id, tx);
    });
  }
}

const placesOf = (moves: readonly { readonly fromPlaceId: string | null }[]) => moves.flatMap(({ fromPlaceId }) => fromPlaceId ?? []);

/** The order would go on saying that it has come. */
const ofOrder = ({ no, as }: { no: number; as: 'receipt' | 'return' }) =>
  as === 'receipt'
    ? `This post is a receipt on order ${no}. Take the receipt back on the order where it was entered wrongly, or enter there what is returned to the supplier`
    : `This post is a return to the supplier on order ${no}. What the supplier sends again is received on the order`;

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
