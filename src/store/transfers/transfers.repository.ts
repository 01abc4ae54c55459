import { newId, type Reader, readCursor } from '../../app/index.js';
import type { TransferLineView, TransfersQuery, TransferView } from './transfers.dto.js';

/** The place where goods on the way lie; made with the first transfer. */
export async function transitPlace(tx: Reader): Promise<string> {
  const find = () => tx.place.findFirst({ where: { kind: 'transit' }, select: { id: true } });
  const known = await find();
  if (known !== null) return known.id;
  await tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended('stock transit', 0))::text`;
  const meanwhile = await find();
  if (meanwhile !== null) return meanwhile.id;
  const id = newId();
  await tx.$executeRaw`
    INSERT INTO place (id, name, kind) SELECT ${id}::uuid, CASE WHEN EXISTS (SELECT 1 FROM place WHERE name = 'On the way') THEN 'On the way ' || ${id} ELSE 'On the way' END, 'transit'`;
  return id;
}

export interface NewTransfer {
  readonly id: string;
  readonly fromPlaceId: string;
  readonly toPlaceId: string;
  readonly sentAt: Date;
  readonly sentBy: string;
  readonly expectedOn: Date | null;
  readonly note: string;
}

/** False: it was sent before. */
export async function enterTransfer(tx: Reader, transfer: NewTransfer): Promise<boolean> {
  const { count } = await tx.transfer.createMany({ data: [transfer], skipDuplicates: true });
  return count === 1;
}

export const placeToSendTo = (tx: Reader, id: string) => tx.place.findUnique({ where: { id }, select: { name: true, kind: true, endedOn: true } });

/** Locked until the end of the transaction. */
export async function holdTransfer(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM transfer WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.transfer.findUnique({ where: { id } });
}

export async function endTransfer(tx: Reader, id: string, at: Date): Promise<void> {
  await tx.transfer.update({ where: { id }, data: { endedAt: at }, select: { id: true } });
}

type HeadRow = { readonly [Field in keyof Omit<TransferView, 'lines'>]: TransferView[Field] };
export type LineRow = { readonly [Field in keyof TransferLineView]: TransferLineView[Field] } & { readonly transferId: string };

export function transferHeads(reader: Reader, { placeId, open, cursor, limit }: TransfersQuery, id: string | null = null): Promise<HeadRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<HeadRow[]>(
    `SELECT t.id, t.from_place_id AS "fromPlaceId", f.name AS "fromPlaceName", t.to_place_id AS "toPlaceId", o.name AS "toPlaceName", t.sent_at AS "sentAt", t.sent_by AS "sentBy",
            to_char(t.expected_on, 'YYYY-MM-DD') AS "expectedOn", t.note, t.ended_at AS "endedAt"
       FROM transfer t JOIN place f ON f.id = t.from_place_id JOIN place o ON o.id = t.to_place_id
      WHERE ($1::uuid IS NULL OR $1 IN (t.from_place_id, t.to_place_id)) AND ($2::boolean IS NULL OR (t.ended_at IS NULL) = $2) AND ($3::uuid IS NULL OR t.id = $3)
        AND ($4::text IS NULL OR (t.sent_at, t.id) < ($4::timestamptz, $5::uuid))
      ORDER BY t.sent_at DESC, t.id DESC LIMIT $6::int`,
    placeId ?? null,
    open ?? null,
    id,
    ...behind,
    limit + 1,
  );
}

/** What was sent, came, was lost and is on the way: read from the moves alone. */
export const transferLines = (reader: Reader, ids: readonly string[]): Promise<LineRow[]> =>
  reader.$queryRaw<LineRow[]>`
    SELECT p.transfer_id AS "transferId", e.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, e.lot, e.part_id AS "partId", a.serial_number AS "serialNumber",
           e.owner, e.owner_id AS "ownerId", trim_scale(coalesce(sum(e.quantity) FILTER (WHERE p.kind = 'send'), 0))::text AS sent,
           trim_scale(coalesce(-sum(e.quantity) FILTER (WHERE p.kind = 'arrive' AND m.to_place_id IS NOT NULL), 0))::text AS arrived,
           trim_scale(coalesce(-sum(e.quantity) FILTER (WHERE p.kind = 'arrive' AND m.to_place_id IS NULL), 0))::text AS lost, trim_scale(sum(e.quantity))::text AS "onTheWay"
      FROM stock_post p JOIN stock_effect e ON e.post_id = p.id JOIN stock_move m ON m.id = e.id
      JOIN place w ON w.id = e.place_id AND w.kind = 'transit' JOIN item i ON i.id = e.item_id LEFT JOIN part a ON a.id = e.part_id
     WHERE p.transfer_id = ANY(${[...ids]}::uuid[]) GROUP BY p.transfer_id, e.item_id, i.code, i.name, i.unit, e.lot, e.part_id, a.serial_number, e.owner, e.owner_id
     ORDER BY i.code, e.lot NULLS FIRST, a.serial_number NULLS FIRST`;
