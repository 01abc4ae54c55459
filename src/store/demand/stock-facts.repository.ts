import type { Reader } from '../../app/index.js';
import { comingSql } from './coming-sql.js';

/** Of these items, or of all where it is null. */
export type Items = readonly string[] | null;

export interface StockPlace {
  readonly id: string;
  readonly name: string;
  readonly kind: 'store' | 'van' | 'site';
  readonly siteId: string | null;
}

/** Of a van, whose it is. */
interface OwnedPlace extends StockPlace {
  readonly personId: string | null;
  readonly personName: string | null;
}

/** Places that stock is kept at, in the order in which they were entered. */
export const stockPlaces = (reader: Reader) =>
  reader.$queryRaw<OwnedPlace[]>`
    SELECT p.id, p.name, p.kind, p.site_id AS "siteId", p.person_id AS "personId", w.name AS "personName"
      FROM place p LEFT JOIN person w ON w.id = p.person_id WHERE p.ended_on IS NULL AND p.kind IN ('store', 'van', 'site') ORDER BY p.id`;

export const siteSupplies = (reader: Reader) => reader.$queryRaw<{ siteId: string; placeId: string }[]>`
    SELECT site_id AS "siteId", place_id AS "placeId" FROM site_supply`;

/** What is bought in the stead of what. */
export const successions = (reader: Reader) =>
  reader.$queryRaw<{ itemId: string; successorId: string }[]>`
    SELECT s.item_id AS "itemId", s.superseded_by_id AS "successorId" FROM item_supply s WHERE s.superseded_by_id IS NOT NULL`;

export interface StockItem {
  readonly id: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  readonly criticality: 'stops the skid' | 'hampers the skid' | 'can wait';
  readonly shelfLifeDays: number | null;
  readonly reviewDays: number;
  /** Of one unit of use: litres; null: not known */
  readonly litres: number | null;
  /** Of one unit of use, in the reckoning currency */
  readonly unitCost: number | null;
}

export const stockItems = (reader: Reader, items: Items) =>
  reader.$queryRaw<StockItem[]>`
    SELECT i.id, i.code, i.name, i.unit, coalesce(s.criticality, 'can wait') AS criticality, s.shelf_life_days AS "shelfLifeDays", coalesce(s.review_days, 0) AS "reviewDays",
           (CASE WHEN i.unit = 'LTR' THEN 1 WHEN s.content_ucum = 'L' THEN s.content_amount WHEN s.content_ucum = 'm3' THEN s.content_amount * 1000 END)::float8 AS litres,
           c.average::float8 AS "unitCost"
      FROM item i LEFT JOIN item_supply s ON s.item_id = i.id LEFT JOIN item_cost c ON c.item_id = i.id
     WHERE i.ended_on IS NULL AND (${items}::uuid[] IS NULL OR i.id = ANY(${items}::uuid[])) ORDER BY i.code`;

export interface LotOnHand {
  readonly placeId: string;
  readonly itemId: string;
  readonly lot: string | null;
  readonly quantity: number;
  /** The last day on which it may be used; null: it keeps */
  readonly until: string | null;
}

/** What may be used: neither held nor past its day, and no client's. */
export const usableStock = (reader: Reader, items: Items, today: string) =>
  reader.$queryRaw<LotOnHand[]>`
    SELECT b.place_id AS "placeId", b.item_id AS "itemId", b.lot, sum(b.on_hand)::float8 AS quantity, to_char(min(least(l.expires_on, l.preserve_by)), 'YYYY-MM-DD') AS until
      FROM stock_balance b LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
     WHERE b.owner <> 'client' AND coalesce(l.held, '') = '' AND coalesce(least(l.expires_on, l.preserve_by) >= ${today}::date, true)
       AND (${items}::uuid[] IS NULL OR b.item_id = ANY(${items}::uuid[])) GROUP BY 1, 2, 3`;

/** Items that were ever moved or ordered. */
export const itemsOfLedger = (reader: Reader, items: readonly string[]) =>
  reader.$queryRaw<{ itemId: string }[]>`
    SELECT id AS "itemId" FROM item i WHERE id = ANY(${items}::uuid[])
       AND (EXISTS (SELECT FROM stock_move m WHERE m.item_id = i.id) OR EXISTS (SELECT FROM purchase_order_line l WHERE l.item_id = i.id))`;

export interface OpenReservation {
  readonly placeId: string;
  readonly itemId: string;
  readonly jobId: string | null;
  readonly visitId: string | null;
  readonly quantity: number;
}

export const openReservations = (reader: Reader, items: Items) =>
  reader.$queryRaw<OpenReservation[]>`
    SELECT place_id AS "placeId", item_id AS "itemId", job_id AS "jobId", visit_id AS "visitId", sum(quantity - taken)::float8 AS quantity FROM reservation
     WHERE ended_at IS NULL AND (${items}::uuid[] IS NULL OR item_id = ANY(${items}::uuid[])) GROUP BY 1, 2, 3, 4 HAVING sum(quantity - taken) > 0`;

export interface Coming {
  readonly placeId: string;
  readonly itemId: string;
  readonly quantity: number;
  readonly kind: 'order' | 'transfer';
  readonly orderId: string | null;
  readonly orderNo: number | null;
  /** As promised or expected; null: nobody said so */
  readonly day: string | null;
  /** When the order was sent; null: not yet */
  readonly sentOn: string | null;
}

/** What is on order, drafts among it, and what is on the way from one place to another. */
export const comingStock = (reader: Reader, items: Items) =>
  reader.$queryRawUnsafe<Coming[]>(
    `SELECT place_id AS "placeId", item_id AS "itemId", quantity::float8 AS quantity, kind, order_id AS "orderId", order_no AS "orderNo", day, sent_on AS "sentOn" FROM (${comingSql('$1')}) c`,
    items,
  );
