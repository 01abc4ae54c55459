import { inOrderOfUse, type Line, type OwnerKind, type PassedOver, passedOver, type Shelf } from './pick-lines.js';
import { type Millionths, millionthsOf, quantityText } from './quantity.js';

/** What lies at a place, line by line, in the order in which it came. */
export interface OnHand extends Line {
  readonly onHand: string;
}

export interface Move {
  readonly itemId: string;
  /** Null: any lot */
  readonly lot: string | null;
  /** Which part it is, where that is known */
  readonly partId: string | null;
  /** Above zero, with six decimals at most */
  readonly quantity: string;
  /** Null: from outside */
  readonly fromPlaceId: string | null;
  /** Null: to outside */
  readonly toPlaceId: string | null;
  /** What is not there by the ledger is there in truth */
  readonly countWasWrong?: boolean | undefined;
  /** Whose it is. Unset: ours where it comes from outside; what may be taken, where it comes from a place */
  readonly owner?: { readonly kind: OwnerKind; readonly id: string | null } | undefined;
  /** Of what comes from outside: what one unit cost, in the reckoning currency */
  readonly unitCost?: string | null | undefined;
  /** Of a lot that comes from outside */
  readonly expiresOn?: string | null | undefined;
}

/** How the moves of a post are to be read. */
export interface Rules {
  /** Of the post */
  readonly day: string;
  readonly takesExpired: boolean;
  /** Lines are named in full: no lot means the line without a lot */
  readonly exact: boolean;
  /** The move takes stock to be used */
  readonly toUse: (move: Move) => boolean;
  /** Of the site where a place is */
  readonly clientOf: (placeId: string) => string | null;
  /** The part is one piece that is known by its serial number */
  readonly isSerial: (partId: string) => boolean;
}

/** A move as the ledger enters it: of one line. */
export interface Entry {
  readonly itemId: string;
  readonly lot: string | null;
  readonly partId: string | null;
  readonly quantity: string;
  readonly fromPlaceId: string | null;
  readonly toPlaceId: string | null;
  readonly owner: OwnerKind;
  readonly ownerId: string | null;
  /** It lay, or lies from now on, under its serial number */
  readonly fromSerial: boolean;
  readonly toSerial: boolean;
  /** Found, so that what follows could be taken */
  readonly correction: boolean;
  readonly unitCost: string | null;
}

export interface Short {
  readonly itemId: string;
  readonly placeId: string;
  readonly lot: string | null;
  /** What these moves could take there */
  readonly onHand: string;
  readonly asked: string;
  /** The moves that ask for it, counted from 0 */
  readonly moves: readonly number[];
  /** What lies there and was not taken, by the reason */
  readonly passedOver?: Readonly<Partial<Record<PassedOver, string>>>;
}

export type Applied = { readonly kind: 'entries'; readonly entries: readonly Entry[] } | { readonly kind: 'short'; readonly lines: readonly Short[] };

/**
 * Turns moves into entries of the ledger, one after the other, so that nothing goes below zero. A move that names no lot takes what expires first; a part with
 * a serial number is taken under it, or from what lies there without one. Where the count was wrong, what is missing is entered as found before it is taken.
 * Short: all that is missing, by item, place and lot; then nothing may be entered.
 */
export function applyMoves(before: readonly OnHand[], moves: readonly Move[], rules: Rules): Applied {
  const shelves = new Shelves(before);
  const entries: Entry[] = [];
  const asked = new Map<string, Asked>();
  for (const [at, move] of moves.entries()) {
    const { itemId, lot, partId, fromPlaceId, toPlaceId, owner } = move;
    const serial = partId !== null && rules.isSerial(partId) ? partId : null;
    let left = millionthsOf(move.quantity) ?? 0n;
    const enter = (line: Omit<Line, 'placeId' | 'itemId'>, size: Millionths, ends: Partial<Entry> = {}) => {
      const { fromPlaceId: from = fromPlaceId, toPlaceId: to = toPlaceId, correction = false } = ends;
      const toSerial = to !== null && serial !== null;
      const fromSerial = from !== null && serial !== null && line.partId === serial;
      const unitCost = from === null && !correction ? (move.unitCost ?? null) : null;
      const of = { itemId, lot: line.lot, partId, owner: line.owner, ownerId: line.ownerId };
      entries.push({ ...of, quantity: quantityText(size), fromPlaceId: from, toPlaceId: to, fromSerial, toSerial, correction, unitCost });
      if (to !== null) shelves.add({ ...line, placeId: to, itemId, partId: toSerial ? serial : null }, size);
    };
    const named = { lot, owner: owner?.kind ?? ('us' as const), ownerId: owner?.id ?? null, partId: serial, expiresOn: move.expiresOn ?? null, held: false };
    if (fromPlaceId === null) {
      enter(named, left);
      continue;
    }
    const wish = {
      lot,
      owner: rules.exact ? { kind: named.owner, id: named.ownerId } : owner,
      partId: serial,
      toUse: rules.toUse(move),
      takesExpired: rules.takesExpired,
      day: rules.day,
      clientId: rules.clientOf(fromPlaceId),
    };
    const question = sameWish(asked, { itemId, placeId: fromPlaceId, lot });
    question.moves.push(at);
    question.size += left;
    const there = shelves.of(fromPlaceId, itemId, rules.exact || lot !== null ? [lot] : null);
    for (const { line } of there) {
      const why = passedOver(line, wish);
      if (why !== null) question.passed.set(why, shelves.sizeOf(there, line, wish));
    }
    for (const shelf of inOrderOfUse(
      there.filter(({ line }) => passedOver(line, wish) === null),
      wish,
    )) {
      const size = shelf.size < left ? shelf.size : left;
      if (size <= 0n) continue;
      left -= size;
      shelf.size -= size;
      enter(shelf.line, size);
    }
    if (left === 0n) continue;
    if (move.countWasWrong === true) {
      enter(named, left, { fromPlaceId: null, toPlaceId: fromPlaceId, correction: true });
      shelves.take(fromPlaceId, itemId, named, left);
      enter(named, left);
    } else {
      question.short += left;
    }
  }
  const lines = [...asked.values()].filter(({ short }) => short > 0n);
  if (lines.length === 0) return { kind: 'entries', entries };
  return { kind: 'short', lines: lines.map(toShort) };
}

interface Asked {
  readonly of: { readonly itemId: string; readonly placeId: string; readonly lot: string | null };
  readonly moves: number[];
  readonly passed: Map<PassedOver, Millionths>;
  size: Millionths;
  short: Millionths;
}

function sameWish(asked: Map<string, Asked>, of: Asked['of']): Asked {
  const key = JSON.stringify([of.placeId, of.itemId, of.lot]);
  const known = asked.get(key) ?? { of, moves: [], passed: new Map<PassedOver, Millionths>(), size: 0n, short: 0n };
  asked.set(key, known);
  return known;
}

function toShort({ of, size, short, moves, passed }: Asked): Short {
  const seen = [...passed].filter(([, quantity]) => quantity > 0n).map(([why, quantity]) => [why, quantityText(quantity)]);
  const line = { ...of, onHand: quantityText(size - short), asked: quantityText(size), moves };
  return seen.length === 0 ? line : { ...line, passedOver: Object.fromEntries(seen) as NonNullable<Short['passedOver']> };
}

class Shelves {
  private readonly lines = new Map<string, Shelf[]>();

  constructor(before: readonly OnHand[]) {
    for (const { onHand, ...line } of before) this.add(line, millionthsOf(onHand) ?? 0n);
  }

  /** What lies there of these lots (null: of any), in the order in which it came. */
  of(placeId: string, itemId: string, lots: readonly (string | null)[] | null): Shelf[] {
    const all = this.lines.get(`${placeId} ${itemId}`) ?? [];
    return lots === null ? all : all.filter(({ line }) => lots.includes(line.lot));
  }

  sizeOf(there: readonly Shelf[], like: Line, wish: Parameters<typeof passedOver>[1]): Millionths {
    const why = passedOver(like, wish);
    return there.filter(({ line }) => passedOver(line, wish) === why).reduce((sum, { size }) => sum + size, 0n);
  }

  take(placeId: string, itemId: string, line: Pick<Line, 'lot' | 'ownerId' | 'partId'>, size: Millionths): void {
    const shelf = this.of(placeId, itemId, null).find((each) => isLine(each.line, line));
    if (shelf !== undefined) shelf.size -= size;
  }

  add(line: Line, size: Millionths): void {
    const key = `${line.placeId} ${line.itemId}`;
    const all = this.lines.get(key) ?? [];
    const there = all.find((shelf) => isLine(shelf.line, line));
    if (there === undefined) this.lines.set(key, [...all, { line, size }]);
    else there.size += size;
  }
}

const isLine = (one: Line, other: Pick<Line, 'lot' | 'ownerId' | 'partId'>) =>
  one.lot === other.lot && one.ownerId === other.ownerId && one.partId === other.partId;
