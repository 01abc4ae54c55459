import { likeOf, type Reader, readCursor } from '../../app/index.js';
import { comingSql } from '../demand/coming-sql.js';
import type { AvailableQuery, AvailableTableQuery, AvailableView, ReservationsQuery, ReservationView } from './reservations.dto.js';

/** Stock that may be used, by place and item: neither held nor past its day, and no client's. */
const USABLE = `
  SELECT b.place_id, b.item_id, sum(b.on_hand) AS on_hand FROM stock_balance b LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot
   WHERE b.owner <> 'client' AND coalesce(l.held, '') = '' AND coalesce(least(l.expires_on, l.preserve_by) >= current_date, true) GROUP BY 1, 2`;

const OPEN = `SELECT place_id, item_id, sum(quantity - taken) AS reserved FROM reservation WHERE ended_at IS NULL GROUP BY 1, 2`;

export type AvailableRow = { readonly [Field in keyof AvailableView]: AvailableView[Field] };

/** By place and item: `$1` the place, `$2` the item, `$3` words to look for, `$4` items as a list (null: all). */
const AVAILABLE = `
  SELECT p.id AS "placeId", p.name AS "placeName", i.id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, trim_scale(t.on_hand)::text AS "onHand",
         trim_scale(t.reserved)::text AS reserved, trim_scale(greatest(t.on_hand - t.reserved, 0))::text AS available, trim_scale(greatest(t.reserved - t.on_hand, 0))::text AS short,
         trim_scale(t.on_order)::text AS "onOrder", trim_scale(t.on_the_way)::text AS "onTheWay"
    FROM (SELECT place_id, item_id, sum(on_hand) AS on_hand, sum(reserved) AS reserved, sum(on_order) AS on_order, sum(on_the_way) AS on_the_way FROM (
            SELECT place_id, item_id, on_hand, 0 AS reserved, 0 AS on_order, 0 AS on_the_way FROM (${USABLE}) u
            UNION ALL SELECT place_id, item_id, 0, reserved, 0, 0 FROM (${OPEN}) o
            UNION ALL SELECT place_id, item_id, 0, 0, CASE WHEN kind = 'order' THEN quantity ELSE 0 END, CASE WHEN kind = 'transfer' THEN quantity ELSE 0 END
                        FROM (${comingSql('$4')}) c) each GROUP BY 1, 2) t
    JOIN place p ON p.id = t.place_id JOIN item i ON i.id = t.item_id
   WHERE p.kind IN ('store', 'van', 'site') AND ($1::uuid IS NULL OR p.id = $1) AND ($2::uuid IS NULL OR i.id = $2)
     AND ($3::text IS NULL OR concat_ws(' ', p.name, i.code, i.name) ILIKE $3)`;

const askedOf = ({ placeId, itemId, find }: AvailableTableQuery) => [placeId ?? null, itemId ?? null, likeOf(find), itemId === undefined ? null : [itemId]];

export function availablePage(reader: Reader, { cursor, limit, ...asked }: AvailableQuery): Promise<AvailableRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<AvailableRow[]>(
    `${AVAILABLE} AND ($5::text IS NULL OR (p.name, i.code) > ($5, $6::text)) ORDER BY p.name, i.code LIMIT $7::int`,
    ...askedOf(asked),
    ...behind,
    limit + 1,
  );
}

export const availableTable = (reader: Reader, asked: AvailableTableQuery): Promise<AvailableRow[]> =>
  reader.$queryRawUnsafe<AvailableRow[]>(`${AVAILABLE} ORDER BY p.name, i.code`, ...askedOf(asked));

export type ReservationRow = { readonly [Field in keyof ReservationView]: ReservationView[Field] };

/** Reservations with what of them is there: who needs it first is served first. */
export function reservationsPage(
  reader: Reader,
  { placeId, itemId, jobId, visitId, open, cursor, limit }: ReservationsQuery,
  id: string | null = null,
): Promise<ReservationRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<ReservationRow[]>(
    `WITH queue AS (
       SELECT r.id, greatest(0, least(r.quantity - r.taken, coalesce(u.on_hand, 0) - (sum(r.quantity - r.taken) OVER (PARTITION BY r.place_id, r.item_id ORDER BY r.needed_on, r.made_at, r.id)
              - (r.quantity - r.taken)))) AS covered
         FROM reservation r LEFT JOIN (${USABLE}) u ON u.place_id = r.place_id AND u.item_id = r.item_id WHERE r.ended_at IS NULL)
     SELECT r.id, r.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, r.place_id AS "placeId", p.name AS "placeName", r.job_id AS "jobId", r.visit_id AS "visitId",
            trim_scale(r.quantity)::text AS quantity, trim_scale(r.taken)::text AS taken, trim_scale(coalesce(q.covered, 0))::text AS covered,
            to_char(r.needed_on, 'YYYY-MM-DD') AS "neededOn", r.note, r.made_at AS "madeAt", r.made_by AS "madeBy", r.ended_at AS "endedAt", r.outcome
       FROM reservation r JOIN item i ON i.id = r.item_id JOIN place p ON p.id = r.place_id LEFT JOIN queue q ON q.id = r.id
      WHERE ($1::uuid IS NULL OR r.place_id = $1) AND ($2::uuid IS NULL OR r.item_id = $2) AND ($3::uuid IS NULL OR r.job_id = $3) AND ($4::uuid IS NULL OR r.visit_id = $4)
        AND ($5::boolean IS NULL OR (r.ended_at IS NULL) = $5) AND ($6::uuid IS NULL OR r.id = $6)
        AND ($7::text IS NULL OR (to_char(r.needed_on, 'YYYY-MM-DD'), r.id::text) > ($7, $8::text))
      ORDER BY to_char(r.needed_on, 'YYYY-MM-DD'), r.id::text LIMIT $9::int`,
    placeId ?? null,
    itemId ?? null,
    jobId ?? null,
    visitId ?? null,
    open ?? null,
    id,
    ...behind,
    limit + 1,
  );
}

/** For whom it is kept, and that there is such an item and place. */
export async function knownFor(
  tx: Reader,
  { itemId, placeId, jobId, visitId }: { itemId: string; placeId: string; jobId: string | null; visitId: string | null },
) {
  const [known] = await tx.$queryRaw<{ item: boolean; place: boolean; job: boolean; visit: boolean }[]>`
    SELECT EXISTS (SELECT 1 FROM item WHERE id = ${itemId}::uuid AND ended_on IS NULL) AS item,
           EXISTS (SELECT 1 FROM place WHERE id = ${placeId}::uuid AND ended_on IS NULL AND kind IN ('store', 'van', 'site')) AS place,
           EXISTS (SELECT 1 FROM job WHERE id = ${jobId}::uuid AND state NOT IN ('finished', 'dropped')) AS job,
           EXISTS (SELECT 1 FROM visit WHERE id = ${visitId}::uuid AND state NOT IN ('finished', 'called off')) AS visit`;
  return known ?? { item: false, place: false, job: false, visit: false };
}

export interface Wanted {
  readonly itemId: string;
  readonly placeId: string;
  readonly quantity: string;
}

/** Makes what is still kept back for a visit equal to what it wants. */
export async function keepForVisit(tx: Reader, visitId: string, wanted: readonly Wanted[], by: { neededOn: string; at: Date; name: string }): Promise<void> {
  await tx.$executeRawUnsafe(
    `WITH wanted AS (SELECT "itemId" AS item_id, "placeId" AS place_id, sum(quantity) AS quantity FROM jsonb_to_recordset($2::jsonb) AS w("itemId" uuid, "placeId" uuid, quantity numeric) GROUP BY 1, 2),
          open AS (SELECT * FROM reservation WHERE visit_id = $1::uuid AND ended_at IS NULL),
          kept AS (UPDATE reservation r SET quantity = r.taken + w.quantity, needed_on = $3::date FROM open o JOIN wanted w USING (item_id, place_id) WHERE r.id = o.id),
          left_over AS (UPDATE reservation r SET ended_at = $4::timestamptz, outcome = 'released' FROM open o WHERE r.id = o.id
                           AND NOT EXISTS (SELECT 1 FROM wanted w WHERE w.item_id = o.item_id AND w.place_id = o.place_id))
     INSERT INTO reservation (id, item_id, place_id, visit_id, quantity, needed_on, made_at, made_by)
     SELECT gen_random_uuid(), w.item_id, w.place_id, $1::uuid, w.quantity, $3::date, $4::timestamptz, $5 FROM wanted w
      WHERE NOT EXISTS (SELECT 1 FROM open o WHERE o.item_id = w.item_id AND o.place_id = w.place_id)`,
    visitId,
    JSON.stringify(wanted),
    by.neededOn,
    by.at,
    by.name,
  );
}

export const release = (tx: Reader, which: { id: string } | { visitId: string }, at: Date) =>
  tx.reservation.updateMany({ where: { ...which, endedAt: null }, data: { endedAt: at, outcome: 'released' } });

/** What is still kept back for a job that is over. */
export const releaseOverJob = (tx: Reader, jobId: string, at: Date) =>
  tx.$executeRaw`
    UPDATE reservation r SET ended_at = ${at}, outcome = 'released' FROM job j
     WHERE r.job_id = ${jobId}::uuid AND r.ended_at IS NULL AND j.id = r.job_id AND j.state IN ('finished', 'dropped')`;

/** What is kept back at these places, but for one visit. */
export const reservedAt = (reader: Reader, placeIds: readonly string[], exceptVisitId: string) =>
  reader.$queryRaw<{ placeId: string; itemId: string; reserved: string }[]>`
    SELECT place_id AS "placeId", item_id AS "itemId", trim_scale(sum(quantity - taken))::text AS reserved FROM reservation
     WHERE ended_at IS NULL AND place_id = ANY(${[...placeIds]}::uuid[]) AND visit_id IS DISTINCT FROM ${exceptVisitId}::uuid GROUP BY 1, 2`;

export interface NewReservation extends Wanted {
  readonly id: string;
  readonly jobId: string | null;
  readonly visitId: string | null;
  readonly neededOn: Date;
  readonly note: string;
  readonly madeAt: Date;
  readonly madeBy: string;
}

export async function enterReservation(tx: Reader, reservation: NewReservation): Promise<void> {
  await tx.reservation.create({ data: reservation, select: { id: true } });
}
