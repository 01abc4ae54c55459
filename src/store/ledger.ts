import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { type Caller, Conflict, type FieldProblem, InvalidRequest, NotFound, type Reader } from '../app/index.js';
import { applyMoves, type Move, type Short } from './core/apply-moves.js';
import { moveProblem, type PostKind } from './core/move-problem.js';
import { millionthsOf } from './core/quantity.js';
import { type Balance, type BalanceFilter, balances, enterPost, findPost, lockStock, namesOf, reversalOf } from './ledger.repository.js';
import { PostIdUsed } from './store.errors.js';

export interface Post {
  /** Made by whoever posts: sent again, it is posted once */
  readonly id: string;
  readonly kind: PostKind;
  /** When stock was moved in truth */
  readonly at: Date;
  readonly caller: Pick<Caller, 'id' | 'name'>;
  readonly note: string;
  readonly jobId?: string;
  readonly reportId?: string;
  readonly moves: readonly Move[];
  /** For every move: what is not there by the ledger is there in truth */
  readonly countWasWrong?: boolean;
}

/** What is missing, and by which moves. */
export interface ShortLine extends Short {
  readonly itemCode: string;
  readonly placeName: string;
}

/** `known`: posted before, under the same id and with the same content. `short`: nothing was written. */
export type Posted = { readonly kind: 'posted' } | { readonly kind: 'known' } | { readonly kind: 'short'; readonly lines: readonly ShortLine[] };

/**
 * The stock ledger. Stock on hand is the sum of moves and nothing else; moves are never changed, only taken back by others.
 * Every call is part of the transaction of the work that it belongs to.
 */
@Injectable()
export class Ledger {
  async post(tx: Reader, { countWasWrong = false, ...post }: Post): Promise<Posted> {
    const moves = post.moves.map((move) => ({ ...move, countWasWrong: move.countWasWrong ?? countWasWrong }));
    return this.enter(tx, { ...post, moves }, null);
  }

  /** Takes a post back, entry by entry. Short: what it brought has been used since. */
  async reverse(tx: Reader, postId: string, by: Pick<Post, 'id' | 'at' | 'caller' | 'note'>): Promise<Posted> {
    const post = await findPost(tx, postId);
    if (post === null) throw new NotFound('stock post', postId);
    if (post.reverses !== null) throw new Conflict('This post takes another one back. Post again what is to be moved');
    const moves = post.moves.toReversed().map(({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId }) => ({
      itemId,
      lot,
      partId,
      quantity: quantity.toFixed(),
      fromPlaceId: toPlaceId,
      toPlaceId: fromPlaceId,
    }));
    const { jobId, reportId } = post;
    return this.enter(tx, { ...by, kind: 'reverse', moves, ...(jobId === null ? {} : { jobId }), ...(reportId === null ? {} : { reportId }) }, postId);
  }

  balances(reader: Reader, filter: BalanceFilter): Promise<Balance[]> {
    return balances(reader, filter);
  }

  private async enter(tx: Reader, post: Omit<Post, 'countWasWrong'>, reverses: string | null): Promise<Posted> {
    const { id, kind, at, caller, note, jobId = null, reportId = null, moves } = post;
    checkMoves(kind, moves);
    const pairs = moves.flatMap(({ itemId, fromPlaceId, toPlaceId }) =>
      [fromPlaceId, toPlaceId].flatMap((placeId) => (placeId === null ? [] : [{ placeId, itemId }])),
    );
    const requestHash = hashOf([kind, at.toISOString(), note, jobId, reportId, reverses, moves.map(asAsked)]);
    await lockStock(tx, id, pairs);
    const earlier = await findPost(tx, id);
    if (earlier !== null) {
      if (earlier.requestHash === requestHash) return { kind: 'known' };
      throw new PostIdUsed('A post with this id was entered with another content. Make a new id for another post');
    }
    if (reverses !== null && (await reversalOf(tx, reverses)) !== null) throw new Conflict('This post was taken back already');
    const placeIds = unique(pairs.map(({ placeId }) => placeId));
    const itemIds = unique(moves.map(({ itemId }) => itemId));
    const partIds = unique(moves.flatMap(({ partId }) => (partId === null ? [] : [partId])));
    const names = await namesOf(tx, itemIds, placeIds, partIds);
    checkNames(names, moves);
    const applied = applyMoves(await balances(tx, { placeIds, itemIds }), moves);
    if (applied.kind === 'short') {
      const lines = applied.lines.map((line) => ({
        ...line,
        itemCode: names.items.get(line.itemId)?.name ?? '',
        placeName: names.places.get(line.placeId)?.name ?? '',
      }));
      return { kind: 'short', lines };
    }
    await enterPost(tx, { id, kind, at, byId: caller.id, by: caller.name, note, requestHash, jobId, reportId, reverses }, applied.entries);
    return { kind: 'posted' };
  }
}

/** Written out field by field: the same content has the same hash, in whichever order a caller names the fields. */
const asAsked = ({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId, countWasWrong = false }: Move) => [
  itemId,
  lot,
  partId,
  String(millionthsOf(quantity)),
  fromPlaceId,
  toPlaceId,
  countWasWrong,
];

const hashOf = (content: unknown) => createHash('sha256').update(JSON.stringify(content)).digest('hex');
const unique = (ids: readonly string[]) => [...new Set(ids)];

function refuseAny(problems: readonly FieldProblem[]): void {
  if (problems.length > 0) throw new InvalidRequest('The post has moves that need a change', problems);
}

function checkMoves(kind: PostKind, moves: readonly Move[]): void {
  if (moves.length === 0) throw new InvalidRequest('A post needs a move', [{ pointer: '#/moves', message: 'must hold one move at least' }]);
  refuseAny(
    moves.flatMap((move, at) => {
      const ends = moveProblem(kind, move);
      const size = millionthsOf(move.quantity);
      return [
        ...(ends === null ? [] : [{ pointer: `#/moves/${at}/${ends.field}`, message: ends.message }]),
        ...(size !== null && size > 0n
          ? []
          : [{ pointer: `#/moves/${at}/quantity`, message: `must be a number above zero with six decimals at most, not "${move.quantity}"` }]),
      ];
    }),
  );
}

function checkNames({ items, places, parts }: Awaited<ReturnType<typeof namesOf>>, moves: readonly Move[]): void {
  const problemsOf = (move: Move): [field: keyof Move, message: string][] => {
    const { itemId, partId } = move;
    const ends = (['fromPlaceId', 'toPlaceId'] as const).flatMap((field): [keyof Move, string][] => {
      const id = move[field];
      const place = id === null ? undefined : places.get(id);
      if (id === null || place?.ended === false) return [];
      return [[field, place === undefined ? 'there is no such place' : `${place.name} has ended: no stock is moved there any more`]];
    });
    if (!items.has(itemId)) return [['itemId', 'there is no such item'], ...ends];
    return partId === null || parts.get(partId)?.name === itemId ? ends : [['partId', 'there is no such part of this item'], ...ends];
  };
  refuseAny(moves.flatMap((move, at) => problemsOf(move).map(([field, message]) => ({ pointer: `#/moves/${at}/${field}`, message }))));
}
