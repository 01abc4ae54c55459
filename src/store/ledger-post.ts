import { createHash } from 'node:crypto';
import type { Caller } from '../app/index.js';
import type { Move, Short } from './core/apply-moves.js';
import { type PostKind } from './core/move-problem.js';
import { millionthsOf } from './core/quantity.js';
import { checkMoves } from './ledger-checks.js';

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
  /** Part of no job, order, transfer or repair */
  readonly byHand?: boolean;
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

export interface Paid {
  readonly itemId: string;
  /** Below zero: a receipt is taken back */
  readonly quantity: string;
  readonly unitCost: string;
}

/** The post that is taken back, and what was paid for what it brought. */
export interface TakenBack {
  readonly postId: string;
  readonly paid: readonly Paid[];
}

/** A post whose moves make sense by themselves, with what must be locked and known to enter it. */
export interface ReadyPost extends Post {
  readonly requestHash: string;
  readonly reverses: string | null;
  readonly paid: readonly Paid[];
  readonly pairs: readonly { readonly placeId: string; readonly itemId: string }[];
}

/** Refuses moves that make no sense, whatever is on record. */
export function readyPost({ countWasWrong = false, ...given }: Post, back: TakenBack | null = null): ReadyPost {
  const moves = given.moves.map((move) => ({ ...move, countWasWrong: move.countWasWrong ?? countWasWrong }));
  const post = { ...given, id: given.id.toLowerCase(), moves, reverses: back?.postId ?? null };
  checkMoves(post.kind, moves);
  const pairs = moves.flatMap(({ itemId, fromPlaceId, toPlaceId }) =>
    [fromPlaceId, toPlaceId].flatMap((placeId) => (placeId === null ? [] : [{ placeId, itemId }])),
  );
  return { ...post, requestHash: requestHashOf(post), paid: back?.paid ?? paidIn(moves), pairs };
}

export const hashOf = (content: unknown) => createHash('sha256').update(JSON.stringify(content)).digest('hex');

function requestHashOf(post: Post & { readonly reverses: string | null }): string {
  const { kind, at, note, jobId = null, reportId = null, reverses, moves, expiredReason = '', asked } = post;
  if (asked !== undefined) return hashOf([kind, asked]);
  return hashOf([kind, at.toISOString(), note, jobId, reportId, reverses, moves.map(asAsked), ...(expiredReason === '' ? [] : [expiredReason])]);
}

/** Written out field by field: the same content has the same hash, in whichever order a caller names the fields. */
const asAsked = ({ itemId, lot, partId, quantity, fromPlaceId, toPlaceId, countWasWrong = false, owner, unitCost, expiresOn }: Move) => {
  const more = [owner?.kind ?? null, owner?.id ?? null, unitCost ?? null, expiresOn ?? null];
  return [itemId, lot, partId, String(millionthsOf(quantity)), fromPlaceId, toPlaceId, countWasWrong, ...(more.every((value) => value === null) ? [] : more)];
};

const paidIn = (moves: readonly Move[]): Paid[] =>
  moves.flatMap(({ itemId, quantity, unitCost, owner }) =>
    unitCost == null || (owner !== undefined && owner.kind !== 'us') ? [] : [{ itemId, quantity, unitCost }],
  );
