import { Injectable } from '@nestjs/common';
import { Conflict, NotFound, type Reader } from '../app/index.js';
import type { Entry } from './core/apply-moves.js';
import { changesBetween } from './core/lines-after.js';
import { decidePost, idUsed, type Written } from './decide-post.js';
import { knownAfter } from './known-after.js';
import {
  type Asked,
  type Balance,
  type BalanceFilter,
  balances,
  enterPosts,
  findPost,
  type Known,
  keepLots,
  leaveLines,
  lockFree,
  lockStock,
  locksOf,
  type NewLot,
  type NewPost,
  setAverages,
  takeReserved,
  whatIsKnown,
} from './ledger.repository.js';
import { hashOf, type Post, type Posted, type ReadyPost, readyPost } from './ledger-post.js';

/** `busy`: others hold what it moves. */
export type PostedOrBusy = Posted | { readonly kind: 'busy' };

/**
 * The stock ledger. Stock on hand is the sum of moves, and kept beside them in the same transaction; moves are never changed, only taken back by others.
 * Every call is part of the transaction of the work that it belongs to.
 */
@Injectable()
export class Ledger {
  async post(tx: Reader, post: Post): Promise<Posted> {
    return this.enter(tx, readyPost(post));
  }

  /** Takes a post back, entry by entry. Short: what it brought has been used since. */
  async reverse(tx: Reader, postId: string, by: Pick<Post, 'id' | 'at' | 'caller' | 'note'>): Promise<Posted> {
    const post = await findPost(tx, postId);
    if (post === null) throw new NotFound('stock post', postId);
    if (post.reverses !== null) throw new Conflict('This post takes another one back. Post again what is to be moved');
    const moves = post.moves.toReversed().map(({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId, owner, ownerId }) => ({
      itemId,
      lot,
      partId,
      quantity: quantity.toFixed(),
      fromPlaceId: toPlaceId,
      toPlaceId: fromPlaceId,
      owner: { kind: owner as Entry['owner'], id: ownerId },
    }));
    const paid = post.moves.flatMap(({ itemId, fromPlaceId, owner, unitCost, quantity }) =>
      fromPlaceId === null && owner === 'us' && unitCost !== null ? [{ itemId, quantity: quantity.neg().toFixed(), unitCost: unitCost.toFixed() }] : [],
    );
    const { jobId, reportId, transferId } = post;
    const of = { ...(jobId === null ? {} : { jobId }), ...(reportId === null ? {} : { reportId }), ...(transferId === null ? {} : { transferId }) };
    return this.enter(tx, readyPost({ ...by, kind: 'reverse', moves, exact: true, ...of }, { postId, paid }));
  }

  /** That this was posted before; refuses an id that was used for something else. */
  async isKnown(tx: Reader, { id, kind, asked }: Pick<Post, 'id' | 'kind' | 'asked'>): Promise<boolean> {
    const earlier = await findPost(tx, id);
    if (earlier !== null && earlier.requestHash !== hashOf([kind, asked])) throw idUsed();
    return earlier !== null;
  }

  balances(reader: Reader, filter: BalanceFilter): Promise<Balance[]> {
    return balances(reader, filter);
  }

  /**
   * Writes posts one after the other, by as many statements as one of them takes: each sees what those before it left, and one that is refused changes nothing for the others.
   * Unless it is to wait, a post whose stock others hold is left out.
   */
  async postAll(tx: Reader, posts: readonly ReadyPost[], { waits }: { readonly waits: boolean }): Promise<PromiseSettledResult<PostedOrBusy>[]> {
    const taken = waits ? await lockStock(tx, locksOf(askedBy(posts))) : await lockFree(tx, locksOf(askedBy(posts)));
    const isFree = (post: ReadyPost) => taken === undefined || !namesOf(post).some((name) => taken.has(name));
    const before = await whatIsKnown(tx, askedBy(posts.filter(isFree)));
    let known = before;
    const written: Written[] = [];
    const answers = posts.map((post): PromiseSettledResult<PostedOrBusy> => {
      if (!isFree(post)) return { status: 'fulfilled', value: { kind: 'busy' } };
      try {
        const decision = decidePost(post, known);
        if (decision.kind !== 'written') return { status: 'fulfilled', value: decision };
        known = knownAfter(known, decision);
        written.push(decision);
        return { status: 'fulfilled', value: { kind: 'posted' } };
      } catch (reason) {
        return { status: 'rejected', reason };
      }
    });
    if (written.length > 0) await store(tx, written, before, known);
    return answers;
  }

  private async enter(tx: Reader, post: ReadyPost): Promise<Posted> {
    const [answer] = await this.postAll(tx, [post], { waits: true });
    if (answer?.status === 'rejected') throw answer.reason;
    if (answer === undefined || answer.value.kind === 'busy') throw new Error('A post that waits for its stock is answered');
    return answer.value;
  }
}

async function store(tx: Reader, written: readonly Written[], before: Known, after: Known): Promise<void> {
  const lots = lotsOf(written);
  if (lots.length > 0) await keepLots(tx, lots);
  const averages = new Map(written.flatMap(({ averages }) => averages.map((each) => [each.itemId, each] as const)));
  if (averages.size > 0) await setAverages(tx, [...averages.values()]);
  const changes = changesBetween(before.lines, after.lines);
  // A serial number lies at one place, also while its line is exchanged for another; and what one post took to the last, another may have brought again.
  const exchanged = changes.gone.length > 0 && (written.length > 1 || changes.added.some(({ partId }) => partId !== null));
  if (exchanged) await leaveLines(tx, changes.gone);
  const entries = written.flatMap(({ post, entries: own }) => own.map((entry) => ({ ...entry, postId: post.id })));
  await enterPosts(tx, written.map(toNewPost), entries, exchanged ? { ...changes, gone: [] } : changes);
  for (const { post, entries: own } of written) {
    const taken = own.filter(({ toPlaceId }) => toPlaceId === null);
    if (post.jobId !== undefined && post.kind === 'use') await takeReserved(tx, post.jobId, post.at, taken);
  }
}

/** Each lot once, with the first expiry that a post says. */
function lotsOf(written: readonly Written[]): NewLot[] {
  const lots = new Map<string, NewLot>();
  for (const lot of written.flatMap((each) => each.lots)) {
    const key = JSON.stringify([lot.itemId, lot.code]);
    const first = lots.get(key);
    lots.set(key, first === undefined ? lot : { ...first, expiresOn: first.expiresOn ?? lot.expiresOn });
  }
  return [...lots.values()];
}

const toNewPost = ({ post }: Written): NewPost => {
  const { id, kind, at, caller, note, jobId = null, reportId = null, transferId = null, expiredReason = '', reverses, requestHash } = post;
  return { id, kind, at, byId: caller.id, by: caller.name, note, requestHash, jobId, reportId, transferId, expiredReason, reverses };
};

const unique = (ids: readonly string[]) => [...new Set(ids)];

function askedBy(posts: readonly ReadyPost[]): Asked & Pick<ReadyPost, 'pairs'> {
  const moves = posts.flatMap((post) => post.moves);
  const pairs = posts.flatMap((post) => post.pairs);
  return {
    postIds: posts.map(({ id }) => id),
    reverses: posts.flatMap(({ reverses }) => reverses ?? []),
    pairs,
    placeIds: unique(pairs.map(({ placeId }) => placeId)),
    itemIds: unique(moves.map(({ itemId }) => itemId)),
    partIds: unique(moves.flatMap(({ partId }) => partId ?? [])),
    lots: unique(moves.flatMap(({ lot }) => lot ?? [])),
    ownerIds: unique(moves.flatMap(({ owner }) => owner?.id ?? [])),
    costOf: unique(posts.flatMap(({ paid }) => paid.map(({ itemId }) => itemId))),
  };
}

const namesOf = (post: ReadyPost) => {
  const { alone, shared } = locksOf(askedBy([post]));
  return [...alone, ...shared];
};
