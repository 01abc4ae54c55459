import type { Reader } from '../../app/index.js';
import { comingStock, itemsOfLedger, openReservations, stockPlaces, usableStock } from './stock-facts.repository.js';

/** Where it lies, or comes to. */
interface Where {
  readonly itemId: string;
  /** At a site: for work there alone; null: in a store or a van */
  readonly siteId: string | null;
  /** Whose van it is in; null: in none */
  readonly van: { readonly personId: string; readonly name: string } | null;
  readonly quantity: number;
}

/** What there is of items and what comes, as work ahead can count on it. */
interface StockAhead {
  readonly there: readonly Where[];
  readonly reserved: readonly (Where & { readonly jobId: string | null })[];
  /** On order and on the way; null: no day is known */
  readonly coming: readonly (Where & { readonly day: string | null })[];
  /** Items that the ledger knows: of others nobody says how many there are */
  readonly known: ReadonlySet<string>;
}

/** Five statements, whatever is asked for, side by side: not for the reader of a transaction. */
export async function stockAhead(reader: Reader, itemIds: readonly string[], today: string): Promise<StockAhead> {
  const items = [...itemIds];
  const [places, stock, reserved, coming, known] = await Promise.all([
    stockPlaces(reader),
    usableStock(reader, items, today),
    openReservations(reader, items),
    comingStock(reader, items),
    itemsOfLedger(reader, items),
  ]);
  const whereIs = new Map(
    places.map(({ id, siteId, personId, personName }) => [id, { siteId, van: personId === null ? null : { personId, name: personName ?? '' } }]),
  );
  const at = <Row extends { readonly placeId: string }>(rows: readonly Row[]) =>
    rows.flatMap((row) => {
      const where = whereIs.get(row.placeId);
      return where === undefined ? [] : [{ ...row, ...where }];
    });
  return { there: at(stock), reserved: at(reserved), coming: at(coming), known: new Set(known.map(({ itemId }) => itemId)) };
}
