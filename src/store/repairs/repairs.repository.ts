import { likeOf, type Reader, readCursor } from '../../app/index.js';
import type { Outcome, RepairsQuery, RepairView } from './repairs.dto.js';

export interface Counter {
  readonly kind: string;
  readonly run: number;
}

export interface NewRepair {
  readonly id: string;
  readonly itemId: string;
  readonly partId: string;
  readonly fromPlaceId: string;
  readonly repairPlaceId: string;
  readonly sentAt: Date;
  readonly sentBy: string;
  readonly expectedOn: Date | null;
  readonly fault: string;
  readonly counters: readonly Counter[];
}

/** Entered once; of a part that is out already, or under an id that is known, nothing is entered. */
export async function enterRepair(tx: Reader, { counters, ...repair }: NewRepair): Promise<void> {
  await tx.repairTrip.createMany({ data: [{ ...repair, counters: counters.map(({ kind, run }) => ({ kind, run })) }], skipDuplicates: true });
}

/** Locked until the end of the transaction. */
export async function holdRepair(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM repair_trip WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.repairTrip.findUnique({ where: { id }, include: { part: { select: { serialNumber: true } } } });
}

export const openRepairOf = (tx: Reader, partId: string) =>
  tx.repairTrip.findFirst({ where: { partId, backAt: null }, select: { id: true, sentAt: true, repairPlace: { select: { name: true } } } });

export async function endRepair(tx: Reader, id: string, back: { backAt: Date; backBy: string; outcome: Outcome; done: string }): Promise<void> {
  await tx.repairTrip.update({ where: { id }, data: back, select: { id: true } });
}

export const partToSend = (tx: Reader, id: string) =>
  tx.part.findUnique({ where: { id }, select: { itemId: true, serialNumber: true, setCount: true, item: { select: { code: true } } } });

export const placeOfRepair = (tx: Reader, id: string) => tx.place.findUnique({ where: { id }, select: { name: true, kind: true, endedOn: true } });

/** One of these places is a repairer. */
export const anyRepairer = (tx: Reader, ids: readonly string[]): Promise<boolean> =>
  tx.place.count({ where: { id: { in: [...ids] }, kind: 'repair' } }).then((count) => count > 0);

/** What a part has run where it was fitted, by each counter of its places, since it was new or last overhauled. */
export const countersOf = (tx: Reader, partId: string): Promise<Counter[]> =>
  tx.$queryRaw<Counter[]>`
    SELECT l.clock AS kind, round(sum(l.life)::numeric, 1)::float8 AS run FROM part_life l JOIN fitting f ON f.id = l.fitting_id
     WHERE l.part_id = ${partId}::uuid
       AND f.fitted_at >= coalesce((SELECT max(back_at) FROM repair_trip WHERE part_id = ${partId}::uuid AND outcome = 'overhauled'), '-infinity')
     GROUP BY l.clock ORDER BY l.clock`;

type RepairRow = { readonly [Field in keyof RepairView]: RepairView[Field] };

/** Parts that went out, the latest first. */
export function repairsPage(
  reader: Reader,
  { open, itemId, partId, find, cursor, limit }: RepairsQuery,
  today: string,
  id: string | null = null,
): Promise<RepairRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<RepairRow[]>(
    `SELECT r.id, r.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", r.part_id AS "partId", a.serial_number AS "serialNumber",
            r.from_place_id AS "fromPlaceId", f.name AS "fromPlaceName", r.repair_place_id AS "repairPlaceId", p.name AS "repairPlaceName",
            r.sent_at AS "sentAt", r.sent_by AS "sentBy", to_char(r.expected_on, 'YYYY-MM-DD') AS "expectedOn",
            coalesce(r.back_at IS NULL AND r.expected_on < $1::date, false) AS late, r.fault, r.counters,
            r.back_at AS "backAt", r.back_by AS "backBy", r.outcome, r.done
       FROM repair_trip r JOIN item i ON i.id = r.item_id JOIN part a ON a.id = r.part_id JOIN place f ON f.id = r.from_place_id JOIN place p ON p.id = r.repair_place_id
      WHERE ($2::boolean IS NULL OR (r.back_at IS NULL) = $2) AND ($3::uuid IS NULL OR r.item_id = $3) AND ($4::uuid IS NULL OR r.part_id = $4) AND ($5::uuid IS NULL OR r.id = $5)
        AND ($6::text IS NULL OR concat_ws(chr(10), i.code, i.name, a.serial_number, p.name, r.fault) ILIKE $6)
        AND ($7::text IS NULL OR (r.sent_at, r.id) < ($7::timestamptz, $8::uuid))
      ORDER BY r.sent_at DESC, r.id DESC LIMIT $9::int`,
    today,
    open ?? null,
    itemId ?? null,
    partId ?? null,
    id,
    likeOf(find),
    ...behind,
    limit + 1,
  );
}
