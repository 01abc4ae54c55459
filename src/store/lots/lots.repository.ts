import { likeOf, type Reader, readCursor } from '../../app/index.js';
import type { LotsQuery, LotView, ValueQuery, ValueView } from './lots.dto.js';

export type LotRow = { readonly [Field in keyof LotView]: LotView[Field] } & { readonly first: string };

/** Lots in the order of the day by which something must be done; those without one last. */
export function lotsPage(reader: Reader, { itemId, by, find, cursor, limit }: LotsQuery, id: string | null = null): Promise<LotRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<LotRow[]>(
    `SELECT * FROM (
       SELECT l.id, l.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, l.code, to_char(l.received_on, 'YYYY-MM-DD') AS "receivedOn",
              to_char(l.expires_on, 'YYYY-MM-DD') AS "expiresOn", to_char(l.preserved_on, 'YYYY-MM-DD') AS "preservedOn", to_char(l.preserve_by, 'YYYY-MM-DD') AS "preserveBy",
              l.held, l.note, trim_scale(coalesce(b.on_hand, 0))::text AS "onHand", coalesce(b.places, '{}') AS places, l.version,
              coalesce(to_char(least(l.expires_on, l.preserve_by), 'YYYY-MM-DD'), '9999') AS first
         FROM lot l JOIN item i ON i.id = l.item_id
         LEFT JOIN LATERAL (SELECT sum(b.on_hand) AS on_hand, array_agg(DISTINCT p.name ORDER BY p.name) AS places
                              FROM stock_balance b JOIN place p ON p.id = b.place_id WHERE b.item_id = l.item_id AND b.lot = l.code) b ON true
        WHERE ($1::uuid IS NULL OR l.item_id = $1) AND ($2::date IS NULL OR least(l.expires_on, l.preserve_by) <= $2::date AND b.on_hand > 0)
          AND ($3::text IS NULL OR concat_ws(' ', i.code, i.name, l.code) ILIKE $3) AND ($4::uuid IS NULL OR l.id = $4)) lot
      WHERE $5::text IS NULL OR (first, id::text) > ($5, $6::text) ORDER BY first, id::text LIMIT $7::int`,
    itemId ?? null,
    by ?? null,
    likeOf(find),
    id,
    ...behind,
    limit + 1,
  );
}

/** Locked until the end of the transaction; with how long the preservative of its item lasts. */
export async function holdLot(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM lot WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.lot.findUnique({ where: { id }, include: { item: { select: { keeping: { select: { preserveDays: true } } } } } });
}

interface LotChange {
  readonly expiresOn?: Date | null;
  readonly held?: string;
  readonly note?: string;
  readonly preservedOn?: Date;
  readonly preserveBy?: Date;
}

export async function editLot(tx: Reader, id: string, change: LotChange): Promise<void> {
  await tx.lot.update({ where: { id }, data: { ...change, version: { increment: 1 } }, select: { id: true } });
}

export const setKeeping = (tx: Reader, itemId: string, preserveDays: number) =>
  tx.itemKeeping.upsert({ where: { itemId }, create: { itemId, preserveDays }, update: { preserveDays, version: { increment: 1 } } });

export const itemExists = async (reader: Reader, id: string): Promise<boolean> => (await reader.item.count({ where: { id } })) === 1;

export type ValueRow = { readonly [Field in keyof ValueView]: ValueView[Field] };

/** What of ours lies at each place, at the moving average and lot by lot. A lot costs what its receipts cost on average. */
export function valuesPage(reader: Reader, { placeId, itemId, find, cursor, limit }: ValueQuery): Promise<ValueRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<ValueRow[]>(
    `WITH held AS (
       SELECT b.place_id, b.item_id, b.lot, sum(b.on_hand) AS on_hand FROM stock_balance b
        WHERE b.owner = 'us' AND ($1::uuid IS NULL OR b.place_id = $1) AND ($2::uuid IS NULL OR b.item_id = $2) GROUP BY 1, 2, 3
     ), paid AS (
       SELECT m.item_id, m.lot, sum(m.quantity * m.unit_cost) / sum(m.quantity) AS cost FROM stock_move m
        WHERE m.lot IS NOT NULL AND m.from_place_id IS NULL AND m.owner = 'us' AND m.unit_cost IS NOT NULL AND ($2::uuid IS NULL OR m.item_id = $2)
          AND NOT EXISTS (SELECT 1 FROM stock_post r WHERE r.reverses = m.post_id) GROUP BY 1, 2
     )
     SELECT p.id AS "placeId", p.name AS "placeName", i.id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, trim_scale(sum(h.on_hand))::text AS "onHand",
            trim_scale(round(c.average, 4))::text AS average, trim_scale(round(sum(h.on_hand * c.average), 4))::text AS value,
            CASE WHEN bool_and(coalesce(l.cost, c.average) IS NOT NULL) THEN trim_scale(round(sum(h.on_hand * coalesce(l.cost, c.average)), 4))::text END AS "valueByLot"
       FROM held h JOIN place p ON p.id = h.place_id JOIN item i ON i.id = h.item_id LEFT JOIN item_cost c ON c.item_id = h.item_id
       LEFT JOIN paid l ON l.item_id = h.item_id AND l.lot = h.lot
      WHERE ($3::text IS NULL OR concat_ws(' ', p.name, i.code, i.name) ILIKE $3) AND ($4::text IS NULL OR (p.name, i.code) > ($4, $5::text))
      GROUP BY p.id, i.id, c.average ORDER BY p.name, i.code LIMIT $6::int`,
    placeId ?? null,
    itemId ?? null,
    likeOf(find),
    ...behind,
    limit + 1,
  );
}

export const reckoningCurrency = async (reader: Reader): Promise<string> => (await reader.storeSetting.findFirstOrThrow()).reckoningCurrency;
