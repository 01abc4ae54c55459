import type { StoredLine } from './core/balance-changes.js';
import { linesAfter } from './core/lines-after.js';
import { millionthsOf } from './core/quantity.js';
import type { Written } from './decide-post.js';
import type { ItemNow, Known, LotNow, NewLot, PartNow } from './ledger.repository.js';

/** What is known when a post is written: the next one under the same locks is judged by it. */
export function knownAfter(known: Known, written: Written): Known {
  const { post, changes } = written;
  const lots = lotsAfter(known.lots, written.lots);
  return {
    ...known,
    earlier: [...known.earlier, { id: post.id, requestHash: post.requestHash }],
    reversed: post.reverses === null ? known.reversed : [...known.reversed, post.reverses],
    items: known.items.map((item) => itemAfter(item, written)),
    parts: known.parts.map((part) => partAfter(part, written, known)),
    lots,
    lines: linesAfter(known.lines, changes, post.id).map((line) => keptAs(line, lots, known.lines)),
  };
}

function itemAfter(item: ItemNow, { entries, averages }: Written): ItemNow {
  const average = averages.find(({ itemId }) => itemId === item.id)?.average;
  const own = entries.filter(({ itemId, owner }) => itemId === item.id && owner === 'us');
  const came = own.reduce((sum, { quantity, fromPlaceId, toPlaceId }) => {
    const size = millionthsOf(quantity) ?? 0n;
    return sum + (toPlaceId === null ? 0n : size) - (fromPlaceId === null ? 0n : size);
  }, 0n);
  return {
    ...item,
    average: average === undefined ? item.average : String(millionthsOf(average) ?? 0n),
    held: item.held === null ? null : String(BigInt(item.held) + came),
  };
}

/** Where a part lies by its serial number. */
function partAfter(part: PartNow, { entries }: Written, { places }: Known): PartNow {
  const last = entries.findLast(({ partId, fromSerial, toSerial }) => partId === part.id && (fromSerial || toSerial));
  if (last === undefined) return part;
  const placeId = last.toSerial ? last.toPlaceId : null;
  return { ...part, placeId, placeName: places.find(({ id }) => id === placeId)?.name ?? null };
}

/** A lot that came before keeps what is on record of it, and gets the expiry that it had not. */
function lotsAfter(lots: readonly LotNow[], fresh: readonly NewLot[]): readonly LotNow[] {
  if (fresh.length === 0) return lots;
  const freshOf = (lot: Pick<LotNow, 'itemId' | 'code'>) => fresh.find((each) => each.itemId === lot.itemId && each.code === lot.code);
  const before = lots.map((lot) => ({ ...lot, expiresOn: lot.expiresOn ?? freshOf(lot)?.expiresOn ?? null }));
  const added = fresh.filter((each) => !lots.some((lot) => lot.itemId === each.itemId && lot.code === each.code));
  return [...before, ...added.map(({ itemId, code, expiresOn, preserveBy }) => ({ itemId, code, expiresOn, preserveBy, held: false }))];
}

/** How long, and whether, what lies on a line may be used: by its lot, or as it was where it lay before. */
function keptAs(line: StoredLine, lots: readonly LotNow[], before: readonly StoredLine[]): StoredLine {
  if (line.lot === null) return line;
  const lot = lots.find((each) => each.itemId === line.itemId && each.code === line.lot);
  if (lot === undefined) {
    const { expiresOn, held } = before.find((each) => each.itemId === line.itemId && each.lot === line.lot) ?? line;
    return { ...line, expiresOn, held };
  }
  const days = [lot.expiresOn, lot.preserveBy].filter((day) => day !== null).sort();
  return { ...line, expiresOn: days[0] ?? null, held: lot.held };
}
