import { createHash } from 'node:crypto';
import { Injectable } from '@nestjs/common';
import { addDays } from 'date-fns';
import { type Caller, Conflict, NotFound, type Reader } from '../app/index.js';
import { dateOf, dayOf } from '../registry/index.js';
import { applyMoves, type Entry, type Move, type Rules, type Short } from './core/apply-moves.js';
import { balanceChanges } from './core/balance-changes.js';
import type { PostKind } from './core/move-problem.js';
import { averageAfter } from './core/moving-average.js';
import { millionthsOf, quantityText } from './core/quantity.js';
import {
  type Balance,
  type BalanceFilter,
  balances,
  enterPost,
  findPost,
  type Known,
  keepLots,
  leaveLines,
  lockStock,
  type NewLot,
  setAverages,
  takeReserved,
  whatIsKnown,
} from './ledger.repository.js';
import { checkKnown, checkMoves } from './ledger-checks.js';
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
  readonly transferId?: string;
  readonly moves: readonly Move[];
  /** For every move: what is not there by the ledger is there in truth */
  readonly countWasWrong?: boolean;
  /** Why lots past their expiry may be taken; left out: they are passed over */
  readonly expiredReason?: string;
  /** Moves name their lines in full: no lot means what has none */
  readonly exact?: boolean;
  /** What was asked for, where the moves follow from it and from what is there: the same again is the same post */
  readonly asked?: unknown;
}

/** What is missing, and by which moves. */
export interface ShortLine extends Short {
  readonly itemCode: string;
  readonly placeName: string;
}

/** `known`: posted before, under the same id and with the same content. `short`: nothing was written. */
export type Posted = { readonly kind: 'posted' } | { readonly kind: 'known' } | { readonly kind: 'short'; readonly lines: readonly ShortLine[] };

/**
 * The stock ledger. Stock on hand is the sum of moves, and kept beside them in the same transaction; moves are never changed, only taken back by others.
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
    return this.enter(tx, { ...by, kind: 'reverse', moves, exact: true, ...of }, { postId, paid });
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

  private async enter(tx: Reader, post: Omit<Post, 'countWasWrong'>, back: { postId: string; paid: readonly Paid[] } | null): Promise<Posted> {
    const { id, kind, at, caller, note, jobId = null, reportId = null, transferId = null, expiredReason = '', moves } = post;
    checkMoves(kind, moves);
    const pairs = moves.flatMap(({ itemId, fromPlaceId, toPlaceId }) =>
      [fromPlaceId, toPlaceId].flatMap((placeId) => (placeId === null ? [] : [{ placeId, itemId }])),
    );
    const reverses = back?.postId ?? null;
    const requestHash =
      post.asked === undefined
        ? hashOf([kind, at.toISOString(), note, jobId, reportId, reverses, moves.map(asAsked), ...(expiredReason === '' ? [] : [expiredReason])])
        : hashOf([kind, post.asked]);
    const paid = back?.paid ?? paidIn(moves);
    const ids = {
      placeIds: unique(pairs.map(({ placeId }) => placeId)),
      partIds: unique(moves.flatMap(({ partId }) => partId ?? [])),
      costOf: unique(paid.map(({ itemId }) => itemId)),
    };
    await lockStock(tx, { postId: id, pairs, ...ids });
    const known = await whatIsKnown(tx, {
      postId: id,
      reverses,
      ...ids,
      itemIds: unique(moves.map(({ itemId }) => itemId)),
      lots: unique(moves.flatMap(({ lot }) => lot ?? [])),
      ownerIds: unique(moves.flatMap(({ owner }) => owner?.id ?? [])),
    });
    if (known.earlier !== null) {
      if (known.earlier.requestHash === requestHash) return { kind: 'known' };
      throw idUsed();
    }
    if (known.reversal !== null) throw new Conflict('This post was taken back already');
    checkKnown(kind, known, moves);
    const applied = applyMoves(known.lines, moves, rulesOf(post, known));
    if (applied.kind === 'short') return { kind: 'short', lines: applied.lines.map((line) => inWords(line, known)) };
    const entries = applied.entries.map((entry) => withCost(entry, known));
    const changes = balanceChanges(known.lines, entries);
    const lots = newLots(moves, known, dayOf(at));
    if (lots.length > 0) await keepLots(tx, lots);
    if (paid.length > 0) await setAverages(tx, averagesAfter(paid, known));
    // A serial number lies at one place, also while its line is exchanged for another.
    const serials = changes.added.some(({ partId }) => partId !== null);
    if (serials && changes.gone.length > 0) await leaveLines(tx, changes.gone);
    const of = { jobId, reportId, transferId, expiredReason, reverses };
    await enterPost(tx, { id, kind, at, byId: caller.id, by: caller.name, note, requestHash, ...of }, entries, serials ? { ...changes, gone: [] } : changes);
    if (jobId !== null && kind === 'use')
      await takeReserved(
        tx,
        jobId,
        at,
        entries.filter(({ toPlaceId }) => toPlaceId === null),
      );
    return { kind: 'posted' };
  }
}

const idUsed = () => new PostIdUsed('A post with this id was entered with another content. Make a new id for another post');

interface Paid {
  readonly itemId: string;
  /** Below zero: a receipt is taken back */
  readonly quantity: string;
  readonly unitCost: string;
}

/** Written out field by field: the same content has the same hash, in whichever order a caller names the fields. */
const asAsked = ({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId, countWasWrong = false, owner, unitCost, expiresOn }: Move) => {
  const more = [owner?.kind ?? null, owner?.id ?? null, unitCost ?? null, expiresOn ?? null];
  return [itemId, lot, partId, String(millionthsOf(quantity)), fromPlaceId, toPlaceId, countWasWrong, ...(more.every((value) => value === null) ? [] : more)];
};

const hashOf = (content: unknown) => createHash('sha256').update(JSON.stringify(content)).digest('hex');
const unique = (ids: readonly string[]) => [...new Set(ids)];

function rulesOf({ kind, at, expiredReason = '', exact = false }: Omit<Post, 'countWasWrong'>, { places, parts }: Known): Rules {
  const byId = new Map(places.map((place) => [place.id, place]));
  const serials = new Set(parts.filter(({ serialNumber, isOne }) => serialNumber !== null && isOne).map(({ id }) => id));
  const near = (placeId: string | null) => ['van', 'site'].includes(byId.get(placeId ?? '')?.kind ?? '');
  return {
    day: dayOf(at),
    takesExpired: expiredReason !== '',
    exact,
    toUse: ({ toPlaceId }) => kind === 'use' || kind === 'consume' || kind === 'send' || (kind === 'transfer' && near(toPlaceId)),
    clientOf: (placeId) => byId.get(placeId)?.clientId ?? null,
    isSerial: (partId) => serials.has(partId),
  };
}

const inWords = (line: Short, { items, places }: Known): ShortLine => ({
  ...line,
  itemCode: items.find(({ id }) => id === line.itemId)?.code ?? '',
  placeName: places.find(({ id }) => id === line.placeId)?.name ?? '',
});

/** What leaves us leaves at what it stands at. */
function withCost(entry: Entry, { items }: Known): Entry {
  if (entry.toPlaceId !== null || entry.owner !== 'us') return entry;
  const average = items.find(({ id }) => id === entry.itemId)?.average ?? null;
  return average === null ? entry : { ...entry, unitCost: quantityText(((BigInt(average) + 50n) / 100n) * 100n) };
}

const paidIn = (moves: readonly Move[]): Paid[] =>
  moves.flatMap(({ itemId, quantity, unitCost, owner }) =>
    unitCost == null || (owner !== undefined && owner.kind !== 'us') ? [] : [{ itemId, quantity, unitCost }],
  );

function averagesAfter(paid: readonly Paid[], { items }: Known): { itemId: string; average: string }[] {
  return items.flatMap(({ id, average, held }) => {
    const own = paid.filter(({ itemId }) => itemId === id);
    if (own.length === 0) return [];
    const after = own.reduce(
      (now, { quantity, unitCost }) => {
        const size = millionthsOf(quantity) ?? 0n;
        return { quantity: now.quantity + size, average: averageAfter(now, { quantity: size, unitCost: millionthsOf(unitCost) ?? 0n }) };
      },
      { quantity: BigInt(held ?? 0), average: average === null ? null : BigInt(average) },
    );
    return after.average === null ? [] : [{ itemId: id, average: quantityText(after.average) }];
  });
}

/** Lots that come from outside for the first time, with how long they may be kept. */
function newLots(moves: readonly Move[], { lots, items }: Known, day: string): NewLot[] {
  const byName = new Map<string, NewLot>();
  for (const { itemId, lot, expiresOn = null, fromPlaceId, countWasWrong } of moves) {
    if (lot === null || (fromPlaceId !== null && countWasWrong !== true)) continue;
    const known = lots.find((each) => each.itemId === itemId && each.code === lot);
    if (known !== undefined && (known.expiresOn !== null || expiresOn === null)) continue;
    const { preserveDays = null, shelfLifeDays = null } = items.find(({ id }) => id === itemId) ?? {};
    const after = (days: number | null) => (days === null ? null : dayOf(addDays(dateOf(day), days)));
    const kept = preserveDays !== null;
    byName.set(`${itemId} ${lot}`, {
      itemId,
      code: lot,
      receivedOn: day,
      expiresOn: expiresOn ?? (kept ? null : after(shelfLifeDays)),
      preserveBy: after(preserveDays),
    });
  }
  return [...byName.values()];
}
