import type { Millionths } from './quantity.js';

/** Whose stock it is. */
export const OWNER_KINDS = ['us', 'client', 'supplier'] as const;
export type OwnerKind = (typeof OWNER_KINDS)[number];

/** What lies at a place of one item, lot, owner and serial number. */
export interface Line {
  readonly placeId: string;
  readonly itemId: string;
  readonly lot: string | null;
  readonly owner: OwnerKind;
  readonly ownerId: string | null;
  /** Of what lies there under its serial number */
  readonly partId: string | null;
  /** The last day on which the lot may be used */
  readonly expiresOn: string | null;
  /** The lot may not be used, wherever it lies */
  readonly held: boolean;
}

export interface Shelf {
  readonly line: Line;
  size: Millionths;
}

/** What a move asks for, as far as it says. */
export interface Wish {
  /** Null: any lot */
  readonly lot: string | null;
  /** Unset: ours, then what a supplier keeps here, then the client's own at the client's site */
  readonly owner?: { readonly kind: OwnerKind; readonly id: string | null } | undefined;
  /** The part that is asked for by its serial number */
  readonly partId: string | null;
  /** It is taken to be used: lots that are held or past their expiry are passed over */
  readonly toUse: boolean;
  readonly takesExpired: boolean;
  /** Of the move */
  readonly day: string;
  /** Of the site where the place is */
  readonly clientId: string | null;
}

export type PassedOver = 'expired' | 'held' | 'under serial numbers' | 'of others';

/**
 * Why a move that asks for this may not take from a line; null where it may.
 *
 * @example passedOver({ placeId: 'p', itemId: 'i', lot: 'L', owner: 'us', ownerId: null, partId: null, expiresOn: '2026-01-31', held: false }, { lot: null, partId: null, toUse: true, takesExpired: false, day: '2026-02-01', clientId: null }) // => "expired"
 * @example passedOver({ placeId: 'p', itemId: 'i', lot: 'L', owner: 'us', ownerId: null, partId: null, expiresOn: '2026-01-31', held: false }, { lot: null, partId: null, toUse: true, takesExpired: false, day: '2026-01-31', clientId: null }) // => null
 */
export function passedOver(line: Line, { owner, partId, toUse, takesExpired, day, clientId }: Wish): PassedOver | null {
  if (owner === undefined) {
    if (line.owner === 'client' && line.ownerId !== clientId) return 'of others';
  } else if (line.owner !== owner.kind || line.ownerId !== owner.id) return 'of others';
  if (line.partId !== null && line.partId !== partId) return 'under serial numbers';
  if (toUse && line.held) return 'held';
  return toUse && !takesExpired && isExpired(line, day) ? 'expired' : null;
}

/**
 * The order in which lines are taken: the serial number that was asked for; ours before what others own; what expires first, first; what has no expiry last, and
 * of it what has no lot first. Equal ones stay in the order in which they came. Lots past their expiry, where they may be taken, are taken last.
 *
 * Source: first expired, first out (common practice).
 */
export function inOrderOfUse(shelves: readonly Shelf[], { partId, day }: Pick<Wish, 'partId' | 'day'>): Shelf[] {
  const rank = ({ line }: Shelf) => [
    partId !== null && line.partId === partId ? 0 : 1,
    isExpired(line, day) ? 1 : 0,
    OWNERS.indexOf(line.owner),
    line.expiresOn === null ? 1 : 0,
    Date.parse(line.expiresOn ?? '1970-01-01'),
    line.lot === null ? 0 : 1,
  ];
  return shelves
    .map((shelf) => ({ shelf, by: rank(shelf) }))
    .sort((a, b) => a.by.map((value, at) => value - (b.by[at] ?? 0)).find((difference) => difference !== 0) ?? 0)
    .map(({ shelf }) => shelf);
}

const OWNERS: readonly OwnerKind[] = ['us', 'supplier', 'client'];

const isExpired = ({ expiresOn }: Line, day: string) => expiresOn !== null && expiresOn < day;
