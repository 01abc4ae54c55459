import { containing, type Reader, readCursor } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { BALANCE_SQL } from './ledger.repository.js';
import type { MovesQuery, StockLineView, StockQuery } from './stock.dto.js';

const WITH_NAMES = {
  post: true,
  item: { select: { code: true, name: true, unit: true } },
  part: { select: { serialNumber: true } },
  fromPlace: { select: { name: true } },
  toPlace: { select: { name: true } },
} as const satisfies Prisma.StockMoveInclude;
export type MoveRow = Prisma.StockMoveGetPayload<{ include: typeof WITH_NAMES }>;

export type StockRow = { readonly [Field in keyof StockLineView]: StockLineView[Field] } & { readonly lineId: string };

/** What lies where, by place and item; the lines of an item in the order of what expires first. */
export function stockPage(reader: Reader, { placeId, itemId, at, find, cursor, limit }: StockQuery): Promise<StockRow[]> {
  const behind = readCursor(cursor, 3)?.map(String) ?? [null, null, null];
  const like = find ? `%${find.replace(/[\\%_]/g, '\\$&')}%` : null;
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
    like,
    ...behind,
    limit + 1,
  );
}

/** Moves, the latest entered first. */
export function movesPage(reader: Reader, { placeId, itemId, jobId, kind, from, to, find, cursor, limit }: MovesQuery): Promise<MoveRow[]> {
  const [before] = readCursor(cursor, 1) ?? [];
  const words = containing(find);
  const where: Prisma.StockMoveWhereInput[] = [];
  if (before !== undefined) where.push({ id: { lt: wholeNumber(before) } });
  if (placeId !== undefined) where.push({ OR: [{ fromPlaceId: placeId }, { toPlaceId: placeId }] });
  if (itemId !== undefined) where.push({ itemId });
  if (jobId !== undefined) where.push({ post: { jobId } });
  if (kind !== undefined) where.push({ post: { kind } });
  if (from !== undefined) where.push({ post: { at: { gte: new Date(from) } } });
  if (to !== undefined) where.push({ post: { at: { lt: new Date(to) } } });
  if (words !== undefined) where.push({ OR: [{ item: { code: words } }, { item: { name: words } }, { lot: words }, { post: { note: words } }] });
  return reader.stockMove.findMany({ where: { AND: where }, orderBy: { id: 'desc' }, take: limit + 1, include: WITH_NAMES });
}

export const movesOfPost = (reader: Reader, postId: string): Promise<MoveRow[]> =>
  reader.stockMove.findMany({ where: { postId }, orderBy: { id: 'asc' }, include: WITH_NAMES });

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

export const stockOf = (reader: Reader, placeIds: readonly string[]) =>
  reader.$queryRawUnsafe<(ItemAtPlace & { placeId: string })[]>(
    `SELECT b.place_id AS "placeId", i.id AS "itemId", i.code, i.name, i.unit, trim_scale(sum(b.on_hand))::text AS "onHand"
       FROM stock_balance b JOIN item i ON i.id = b.item_id LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
      WHERE b.place_id = ANY($1::uuid[]) AND b.owner <> 'client' AND coalesce(l.held, '') = '' AND coalesce(least(l.expires_on, l.preserve_by) >= current_date, true)
      GROUP BY b.place_id, i.id ORDER BY b.place_id, i.code`,
    placeIds,
  );
