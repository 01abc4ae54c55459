import { likeOf, PLANNED_ONCE, type Reader, readCursor } from '../app/index.js';
import { BALANCE_SQL } from './ledger.repository.js';
import type { MovesQuery, StockLineView, StockMoveView, StockQuery, StockTableQuery } from './stock.dto.js';

export type MoveRow = { readonly [Field in keyof StockMoveView]: StockMoveView[Field] } & { readonly expiredReason: string };

const MOVES_SQL = `
  SELECT m.id::text, m.post_id AS "postId", t.kind, t.at, t.entered_at AS "enteredAt", t.by, t.note, t.job_id AS "jobId", t.reverses, t.expired_reason AS "expiredReason",
         m.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, m.lot, m.part_id AS "partId", a.serial_number AS "serialNumber",
         trim_scale(m.quantity)::text AS quantity, m.from_place_id AS "fromPlaceId", f.name AS "fromPlaceName", m.to_place_id AS "toPlaceId", g.name AS "toPlaceName",
         m.correction, m.owner, m.owner_id AS "ownerId", trim_scale(m.unit_cost)::text AS "unitCost"
    FROM stock_move m JOIN stock_post t ON t.id = m.post_id JOIN item i ON i.id = m.item_id LEFT JOIN part a ON a.id = m.part_id
    LEFT JOIN place f ON f.id = m.from_place_id LEFT JOIN place g ON g.id = m.to_place_id`;

export type StockRow = { readonly [Field in keyof StockLineView]: StockLineView[Field] } & { readonly lineId: string };

/** What lies where, by place and item; the lines of an item in the order of what expires first. No limit: all of it. */
export function stockPage(reader: Reader, { placeId, itemId, at, find, cursor, limit }: StockTableQuery & Partial<StockQuery>): Promise<StockRow[]> {
  const behind = readCursor(cursor, 3)?.map(String) ?? [null, null, null];
  return reader.$queryRawUnsafe<StockRow[]>(
    `SELECT * FROM (
       SELECT p.id AS "placeId", p.name AS "placeName", p.kind AS "placeKind", i.id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, b.lot,
              to_char(l.expires_on, 'YYYY-MM-DD') AS "expiresOn", to_char(l.preserve_by, 'YYYY-MM-DD') AS "preserveBy", coalesce(l.held, '') AS held,
              b.owner, b.owner_id AS "ownerId", coalesce(c.name, s.name) AS "ownerName", b.part_id AS "partId", a.serial_number AS "serialNumber",
              trim_scale(b.on_hand)::text AS "onHand",
              concat_ws('/', coalesce(to_char(least(l.expires_on, l.preserve_by), 'YYYY-MM-DD'), '9999'), lpad(b.arrived::text, 19, '0')) AS "lineId"
         FROM (${BALANCE_SQL}) b JOIN place p ON p.id = b.place_id JOIN item i ON i.id = b.item_id LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
         LEFT JOIN part a ON a.id = b.part_id LEFT JOIN client c ON c.id = b.owner_id LEFT JOIN supplier s ON s.id = b.owner_id
        WHERE $4::text IS NULL OR concat_ws(' ', p.name, i.code, i.name, b.lot, a.serial_number) ILIKE $4) line
      WHERE $5::text IS NULL OR ("placeName", "itemCode", "lineId") > ($5, $6::text, $7::text)
      ORDER BY "placeName", "itemCode", "lineId" LIMIT $8::int`,
    placeId === undefined ? null : [placeId],
    itemId === undefined ? null : [itemId],
    at === undefined ? null : new Date(at),
    likeOf(find),
    ...behind,
    limit === undefined ? null : limit + 1,
  );
}

/** Moves, the latest entered first. */
export function movesPage(reader: Reader, { placeId, itemId, jobId, kind, from, to, find, cursor, limit }: MovesQuery): Promise<MoveRow[]> {
  const [before] = readCursor(cursor, 1) ?? [];
  return reader.$queryRawUnsafe<MoveRow[]>(
    `${MOVES_SQL}
      WHERE ($1::bigint IS NULL OR m.id < $1) AND ($2::uuid IS NULL OR $2 IN (m.from_place_id, m.to_place_id)) AND ($3::uuid IS NULL OR m.item_id = $3)
        AND ($4::uuid IS NULL OR t.job_id = $4) AND ($5::text IS NULL OR t.kind = $5) AND ($6::timestamptz IS NULL OR t.at >= $6) AND ($7::timestamptz IS NULL OR t.at < $7)
        AND ($8::text IS NULL OR concat_ws(chr(10), i.code, i.name, m.lot, t.note) ILIKE $8) ORDER BY m.id DESC LIMIT $9::int`,
    before === undefined ? null : wholeNumber(before),
    placeId ?? null,
    itemId ?? null,
    jobId ?? null,
    kind ?? null,
    from === undefined ? null : new Date(from),
    to === undefined ? null : new Date(to),
    likeOf(find),
    limit + 1,
  );
}

/** The moves of these posts, each in the order in which they were entered. */
export const movesOfPosts = (reader: Reader, postIds: readonly string[]): Promise<MoveRow[]> =>
  reader.$queryRawUnsafe<MoveRow[]>(`${PLANNED_ONCE} ${MOVES_SQL} WHERE m.post_id = ANY($1::uuid[]) ORDER BY m.id`, postIds);

/** A cursor that somebody made up leads to an empty list. */
const wholeNumber = (text: string | number) => (/^\d{1,18}$/.test(String(text)) ? BigInt(text) : 0n);

export interface ItemAtPlace {
  readonly itemId: string;
  readonly code: string;
  readonly name: string;
  readonly unit: string;
  /** Of all lots that may be used */
  readonly onHand: string;
}

export interface StockedPlace {
  readonly id: string;
  readonly name: string;
  readonly kind: 'van' | 'store';
  /** Whose van */
  readonly personId: string | null;
  readonly stock: readonly ItemAtPlace[];
}

/** The vans of these people, and every store. */
export const placesOfPeople = (reader: Reader, personIds: readonly string[]) =>
  reader.$queryRaw<Omit<StockedPlace, 'stock'>[]>`
    SELECT id, name, kind, person_id AS "personId" FROM place
     WHERE ended_on IS NULL AND (kind = 'store' OR kind = 'van' AND person_id = ANY(${[...personIds]}::uuid[])) ORDER BY kind DESC, name`;

/** Neither held nor past its day, and no client's. */
const MAY_BE_USED = "b.owner <> 'client' AND coalesce(l.held, '') = '' AND coalesce(least(l.expires_on, l.preserve_by) >= current_date, true)";

export const stockOf = (reader: Reader, placeIds: readonly string[]) =>
  reader.$queryRawUnsafe<(ItemAtPlace & { placeId: string })[]>(
    `SELECT b.place_id AS "placeId", i.id AS "itemId", i.code, i.name, i.unit, trim_scale(sum(b.on_hand))::text AS "onHand"
       FROM stock_balance b JOIN item i ON i.id = b.item_id LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
      WHERE b.place_id = ANY($1::uuid[]) AND ${MAY_BE_USED}
      GROUP BY b.place_id, i.id ORDER BY b.place_id, i.code`,
    placeIds,
  );

export interface ItemInVan {
  readonly itemId: string;
  readonly personId: string;
  /** Whose van */
  readonly name: string;
  readonly onHand: string;
  /** What of it is kept back there, and for what */
  readonly reserved: readonly { readonly visitId: string | null; readonly jobId: string | null; readonly quantity: string }[];
}

/** Which vans hold these items. */
export const vansWith = (reader: Reader, itemIds: readonly string[]) =>
  reader.$queryRawUnsafe<ItemInVan[]>(
    `SELECT b.item_id AS "itemId", p.person_id AS "personId", w.name, trim_scale(sum(b.on_hand))::text AS "onHand",
            (SELECT coalesce(jsonb_agg(jsonb_build_object('visitId', r.visit_id, 'jobId', r.job_id, 'quantity', trim_scale(r.quantity - r.taken)::text)), '[]')
               FROM reservation r WHERE r.place_id = p.id AND r.item_id = b.item_id AND r.ended_at IS NULL) AS reserved
       FROM stock_balance b JOIN place p ON p.id = b.place_id JOIN person w ON w.id = p.person_id LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
      WHERE b.item_id = ANY($1::uuid[]) AND p.kind = 'van' AND p.ended_on IS NULL AND ${MAY_BE_USED}
      GROUP BY b.item_id, p.id, w.id`,
    itemIds,
  );
