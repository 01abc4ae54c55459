import { addDays } from 'date-fns';
import { Conflict } from '../app/index.js';
import { dateOf, dayOf } from '../registry/index.js';
import { applyMoves, type Entry, type Rules, type Short } from './core/apply-moves.js';
import { type BalanceChanges, balanceChanges } from './core/balance-changes.js';
import { averageAfter } from './core/moving-average.js';
import { millionthsOf, quantityText } from './core/quantity.js';
import type { Known, NewLot } from './ledger.repository.js';
import { checkKnown } from './ledger-checks.js';
import type { Posted, ReadyPost, ShortLine } from './ledger-post.js';
import { PostIdUsed } from './store.errors.js';

/** What a post writes. */
export interface Written {
  readonly kind: 'written';
  readonly post: ReadyPost;
  readonly entries: readonly Entry[];
  readonly changes: BalanceChanges;
  readonly lots: readonly NewLot[];
  readonly averages: readonly { readonly itemId: string; readonly average: string }[];
}

export type Decision = Written | Exclude<Posted, { readonly kind: 'posted' }>;

/** Judges a post by what is known under its locks. Refuses what contradicts the record. */
export function decidePost(post: ReadyPost, known: Known): Decision {
  const { id, kind, at, moves, paid, reverses, requestHash, byHand = false } = post;
  const earlier = known.earlier.find((each) => each.id === id);
  if (earlier !== undefined) {
    if (earlier.requestHash === requestHash) return { kind: 'known' };
    throw idUsed();
  }
  if (reverses !== null && known.reversed.includes(reverses)) throw new Conflict('This post was taken back already');
  if (byHand && kind === 'scrap') refuseAtRepairer(post, known);
  checkKnown(kind, known, moves);
  const applied = applyMoves(known.lines, moves, rulesOf(post, known));
  if (applied.kind === 'short') return { kind: 'short', lines: applied.lines.map((line) => inWords(line, known)) };
  const entries = applied.entries.map((entry) => withCost(entry, known));
  return {
    kind: 'written',
    post,
    entries,
    changes: balanceChanges(known.lines, entries),
    lots: newLots(post, known, dayOf(at)),
    averages: paid.length === 0 ? [] : averagesAfter(post, known),
  };
}

/** Its repair would go on saying that the part is out. */
function refuseAtRepairer({ moves }: ReadyPost, { places }: Known): void {
  if (moves.some(({ fromPlaceId }) => places.find(({ id }) => id === fromPlaceId)?.kind === 'repair'))
    throw new Conflict('What is out for repair is scrapped by its repair: enter there that it was scrapped');
}

export const idUsed = () => new PostIdUsed('A post with this id was entered with another content. Make a new id for another post');

function rulesOf({ kind, at, expiredReason = '', exact = false }: ReadyPost, { places, parts }: Known): Rules {
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

function averagesAfter({ paid }: ReadyPost, { items }: Known): { itemId: string; average: string }[] {
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
function newLots({ moves }: ReadyPost, { lots, items }: Known, day: string): NewLot[] {
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
