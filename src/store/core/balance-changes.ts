import type { Entry, OnHand } from './apply-moves.js';
import { type Millionths, millionthsOf, quantityText } from './quantity.js';

/** A line of the balance as it is stored. */
export interface StoredLine extends OnHand {
  readonly id: string;
}

export type NewLine = Pick<OnHand, 'placeId' | 'itemId' | 'lot' | 'owner' | 'ownerId' | 'partId' | 'onHand'>;

export interface BalanceChanges {
  readonly changed: readonly { readonly id: string; readonly onHand: string }[];
  /** Nothing lies there any more */
  readonly gone: readonly string[];
  readonly added: readonly NewLine[];
}

/**
 * What the entries of a post change of the stored lines of the items and places that they touch.
 *
 * @example balanceChanges([], []).gone // => []
 */
export function balanceChanges(before: readonly StoredLine[], entries: readonly Entry[]): BalanceChanges {
  const lines = new Map(
    before.map((line) => [keyOf(line), { line, id: line.id as string | null, was: millionthsOf(line.onHand) ?? 0n, now: millionthsOf(line.onHand) ?? 0n }]),
  );
  const put = (placeId: string | null, { itemId, lot, owner, ownerId, partId }: Entry, bySerial: boolean, size: Millionths) => {
    if (placeId === null) return;
    const line = { placeId, itemId, lot, owner, ownerId, partId: bySerial ? partId : null };
    const known = lines.get(keyOf(line)) ?? { line: { ...line, onHand: '0', expiresOn: null, held: false, id: '' }, id: null, was: 0n, now: 0n };
    lines.set(keyOf(line), { ...known, now: known.now + size });
  };
  for (const entry of entries) {
    const size = millionthsOf(entry.quantity) ?? 0n;
    put(entry.fromPlaceId, entry, entry.fromSerial, -size);
    put(entry.toPlaceId, entry, entry.toSerial, size);
  }
  const all = [...lines.values()].filter(({ was, now }) => was !== now);
  return {
    changed: all.flatMap(({ id, now }) => (id === null || now === 0n ? [] : [{ id, onHand: quantityText(now) }])),
    gone: all.flatMap(({ id, now }) => (id === null || now !== 0n ? [] : [id])),
    added: all.flatMap(({ id, line: { placeId, itemId, lot, owner, ownerId, partId }, now }) =>
      id === null ? [{ placeId, itemId, lot, owner, ownerId, partId, onHand: quantityText(now) }] : [],
    ),
  };
}

const keyOf = ({ placeId, itemId, lot, ownerId, partId }: Omit<NewLine, 'onHand' | 'owner'>) => JSON.stringify([placeId, itemId, lot, ownerId, partId]);
