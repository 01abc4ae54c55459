import { type Millionths, millionthsOf, quantityText } from './quantity.js';

/** What lies at a place of one item and lot; the lots of an item in the order in which they came. */
export interface OnHand {
  readonly placeId: string;
  readonly itemId: string;
  readonly lot: string | null;
  readonly onHand: string;
}

export interface Move {
  readonly itemId: string;
  /** Null: any lot */
  readonly lot: string | null;
  /** Which part it is, where that is known. It is told, not counted */
  readonly partId: string | null;
  /** Above zero, with six decimals at most */
  readonly quantity: string;
  /** Null: from outside */
  readonly fromPlaceId: string | null;
  /** Null: to outside */
  readonly toPlaceId: string | null;
  /** What is not there by the ledger is there in truth */
  readonly countWasWrong?: boolean | undefined;
}

/** A move as the ledger enters it: of one lot, or of what has none. */
export interface Entry extends Omit<Move, 'countWasWrong'> {
  /** Found, so that what follows could be taken */
  readonly correction: boolean;
}

export interface Short {
  readonly itemId: string;
  readonly placeId: string;
  readonly lot: string | null;
  /** What these moves found there */
  readonly onHand: string;
  readonly asked: string;
  /** The moves that ask for it, counted from 0 */
  readonly moves: readonly number[];
}

export type Applied = { readonly kind: 'entries'; readonly entries: readonly Entry[] } | { readonly kind: 'short'; readonly lines: readonly Short[] };

/**
 * Turns moves into entries of the ledger, one after the other, so that nothing goes below zero. A move that names no lot takes what has no lot
 * first, then the lots in the order in which they came. Where the count was wrong, what is missing is entered as found before it is taken.
 * Short: all that is missing, by item, place and lot; then nothing may be entered.
 *
 * @example applyMoves([], [{ itemId: 'i', lot: null, partId: null, quantity: '2', fromPlaceId: null, toPlaceId: 'p' }]).entries.length // => 1
 * @example applyMoves([], [{ itemId: 'i', lot: null, partId: null, quantity: '2', fromPlaceId: 'p', toPlaceId: null }]).lines[0].asked // => "2"
 */
export function applyMoves(before: readonly OnHand[], moves: readonly Move[]): Applied {
  const shelves = new Shelves(before);
  const entries: Entry[] = [];
  const asked = new Map<string, Asked>();
  for (const [at, { countWasWrong = false, ...move }] of moves.entries()) {
    const { itemId, lot, fromPlaceId, toPlaceId } = move;
    let left = millionthsOf(move.quantity) ?? 0n;
    const enter = (ofLot: string | null, size: Millionths) => {
      entries.push({ ...move, lot: ofLot, quantity: quantityText(size), correction: false });
      if (toPlaceId !== null) shelves.add(toPlaceId, itemId, ofLot, size);
    };
    if (fromPlaceId === null) {
      enter(lot, left);
      continue;
    }
    const wish = sameWish(asked, { itemId, placeId: fromPlaceId, lot });
    wish.moves.push(at);
    wish.size += left;
    for (const shelf of shelves.of(fromPlaceId, itemId, lot)) {
      const size = shelf.size < left ? shelf.size : left;
      if (size <= 0n) continue;
      left -= size;
      shelf.size -= size;
      enter(shelf.lot, size);
    }
    if (left === 0n) continue;
    if (countWasWrong) {
      entries.push({ ...move, quantity: quantityText(left), fromPlaceId: null, toPlaceId: fromPlaceId, correction: true });
      enter(lot, left);
    } else {
      wish.short += left;
    }
  }
  const lines = [...asked.values()].filter(({ short }) => short > 0n);
  if (lines.length === 0) return { kind: 'entries', entries };
  return {
    kind: 'short',
    lines: lines.map(({ of, size, short, moves: by }) => ({ ...of, onHand: quantityText(size - short), asked: quantityText(size), moves: by })),
  };
}

interface Asked {
  readonly of: { readonly itemId: string; readonly placeId: string; readonly lot: string | null };
  readonly moves: number[];
  size: Millionths;
  short: Millionths;
}

function sameWish(asked: Map<string, Asked>, of: Asked['of']): Asked {
  const key = JSON.stringify([of.placeId, of.itemId, of.lot]);
  const known = asked.get(key) ?? { of, moves: [], size: 0n, short: 0n };
  asked.set(key, known);
  return known;
}

interface Shelf {
  readonly lot: string | null;
  size: Millionths;
}

class Shelves {
  private readonly lots = new Map<string, Shelf[]>();

  constructor(before: readonly OnHand[]) {
    for (const { placeId, itemId, lot, onHand } of before) this.add(placeId, itemId, lot, millionthsOf(onHand) ?? 0n);
  }

  /** What a move that names this lot, or none, may take, in the order in which it takes it. */
  of(placeId: string, itemId: string, lot: string | null): Shelf[] {
    const all = this.lots.get(`${placeId} ${itemId}`) ?? [];
    if (lot !== null) return all.filter((shelf) => shelf.lot === lot);
    return [...all.filter((shelf) => shelf.lot === null), ...all.filter((shelf) => shelf.lot !== null)];
  }

  add(placeId: string, itemId: string, lot: string | null, size: Millionths): void {
    const key = `${placeId} ${itemId}`;
    const all = this.lots.get(key) ?? [];
    const there = all.find((shelf) => shelf.lot === lot);
    if (there === undefined) this.lots.set(key, [...all, { lot, size }]);
    else there.size += size;
  }
}
