import type { Reader } from '../../app/index.js';
import { comingStock, itemsOfLedger, openReservations, stockPlaces, usableStock } from './stock-facts.repository.js';

/** What there is of items and what comes, as work ahead can count on it. */
interface StockAhead {
  /** At a site: for work there alone; null: in a store or a van */
  readonly there: readonly { readonly itemId: string; readonly siteId: string | null; readonly quantity: number }[];
  readonly reserved: readonly { readonly itemId: string; readonly siteId: string | null; readonly jobId: string | null; readonly quantity: number }[];
  /** On order and on the way; null: no day is known */
  readonly coming: readonly { readonly itemId: string; readonly siteId: string | null; readonly quantity: number; readonly day: string | null }[];
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
  const siteOf = new Map(places.map(({ id, kind, siteId }) => [id, kind === 'site' ? siteId : null]));
  const at = <Row extends { readonly placeId: string }>(rows: readonly Row[]) =>
    rows.flatMap((row) => {
      const siteId = siteOf.get(row.placeId);
      return siteId === undefined ? [] : [{ ...row, siteId }];
    });
  return { there: at(stock), reserved: at(reserved), coming: at(coming), known: new Set(known.map(({ itemId }) => itemId)) };
}
