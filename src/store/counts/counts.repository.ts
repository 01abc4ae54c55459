import { newId, type Reader, readCursor } from '../../app/index.js';
import type { OwnerKind } from '../core/pick-lines.js';
import type { CountsQuery, CountView } from './counts.dto.js';

export type CountRow = { readonly [Field in keyof CountView]: CountView[Field] };

export function countsPage(reader: Reader, { placeId, state, cursor, limit }: CountsQuery, id: string | null = null): Promise<CountRow[]> {
  const behind = readCursor(cursor, 2)?.map(String) ?? [null, null];
  return reader.$queryRawUnsafe<CountRow[]>(
    `SELECT c.id, c.place_id AS "placeId", p.name AS "placeName", c.state, c.blind, c.lines_on_page AS "linesOnPage", c.note, c.started_at AS "startedAt", c.started_by AS "startedBy",
            c.ended_at AS "endedAt", c.ended_by AS "endedBy", c.post_id AS "postId",
            ((SELECT count(*) FROM count_line l WHERE l.count_id = c.id) + c.lines_on_page - 1)::int / c.lines_on_page AS pages
       FROM stock_count c JOIN place p ON p.id = c.place_id
      WHERE ($1::uuid IS NULL OR c.place_id = $1) AND ($2::text IS NULL OR c.state = $2) AND ($3::uuid IS NULL OR c.id = $3)
        AND ($4::text IS NULL OR (c.started_at, c.id) < ($4::timestamptz, $5::uuid)) ORDER BY c.started_at DESC, c.id DESC LIMIT $6::int`,
    placeId ?? null,
    state ?? null,
    id,
    ...behind,
    limit + 1,
  );
}

export const placeToCount = (tx: Reader, id: string) => tx.place.findUnique({ where: { id }, select: { name: true, kind: true, endedOn: true } });

export const openCountOf = (tx: Reader, placeId: string) => tx.stockCount.findFirst({ where: { placeId, state: 'open' }, select: { startedBy: true } });

interface NewCount {
  readonly placeId: string;
  readonly blind: boolean;
  readonly linesOnPage: number;
  readonly note: string;
  readonly startedAt: Date;
  readonly startedBy: string;
}

/** The count with a line for all that lies at the place. */
export async function startCount(tx: Reader, count: NewCount): Promise<string> {
  const { id } = await tx.stockCount.create({ data: { id: newId(), ...count }, select: { id: true } });
  await tx.$executeRaw`
    INSERT INTO count_line (id, count_id, no, item_id, lot, owner, owner_id, part_id)
    SELECT gen_random_uuid(), ${id}::uuid, row_number() OVER (ORDER BY i.code, b.lot NULLS FIRST, b.id), b.item_id, b.lot, b.owner, b.owner_id, b.part_id
      FROM stock_balance b JOIN item i ON i.id = b.item_id WHERE b.place_id = ${count.placeId}::uuid`;
  return id;
}

/** Locked until the end of the transaction. */
export async function holdCount(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM stock_count WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.stockCount.findUnique({ where: { id } });
}

export const endCount = (tx: Reader, id: string, data: { state: 'closed' | 'dropped'; endedAt: Date; endedBy: string; postId: string | null }) =>
  tx.stockCount.update({ where: { id }, data, select: { id: true } });

export interface LineRow {
  readonly id: string;
  readonly no: number;
  readonly itemId: string;
  readonly itemCode: string;
  readonly itemName: string;
  readonly unit: string;
  readonly lot: string | null;
  readonly owner: OwnerKind;
  readonly ownerId: string | null;
  readonly partId: string | null;
  readonly serialNumber: string | null;
}

export const linesOf = (reader: Reader, countId: string): Promise<LineRow[]> =>
  reader.$queryRaw<LineRow[]>`
    SELECT l.id, l.no, l.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, l.lot, l.owner, l.owner_id AS "ownerId", l.part_id AS "partId", a.serial_number AS "serialNumber"
      FROM count_line l JOIN item i ON i.id = l.item_id LEFT JOIN part a ON a.id = l.part_id WHERE l.count_id = ${countId}::uuid ORDER BY l.no`;

export interface LookRow {
  readonly lineId: string;
  readonly counted: string;
  /** By the ledger at the moment of the look, with all that is entered today */
  readonly book: string;
}

/** The looks of a count in the order in which they were entered, each with what lay there at its moment, before what the count itself corrected. */
export const looksOf = (reader: Reader, countId: string): Promise<LookRow[]> =>
  reader.$queryRaw<LookRow[]>`
    SELECT k.line_id AS "lineId", trim_scale(k.counted)::text AS counted, trim_scale(coalesce((
             SELECT sum(e.quantity) FROM stock_effect e JOIN stock_post p ON p.id = e.post_id
              WHERE e.place_id = c.place_id AND e.item_id = l.item_id AND e.lot IS NOT DISTINCT FROM l.lot AND e.owner_id IS NOT DISTINCT FROM l.owner_id
                AND e.part_id IS NOT DISTINCT FROM l.part_id AND p.at <= k.at AND p.id IS DISTINCT FROM c.post_id), 0))::text AS book
      FROM count_look k JOIN count_line l ON l.id = k.line_id JOIN stock_count c ON c.id = l.count_id WHERE l.count_id = ${countId}::uuid ORDER BY k.id`;

export const itemsThatAre = async (reader: Reader, ids: readonly string[]): Promise<Set<string>> =>
  new Set((await reader.item.findMany({ where: { id: { in: [...ids] } }, select: { id: true } })).map(({ id }) => id));

/** Lines for what was not on the list. */
export async function addLines(tx: Reader, lines: readonly { id: string; countId: string; no: number; itemId: string; lot: string | null }[]): Promise<void> {
  await tx.countLine.createMany({ data: [...lines] });
}

export async function addLooks(
  tx: Reader,
  looks: readonly { lineId: string; counted: string; at: Date; enteredAt: Date; byId: string; by: string }[],
): Promise<void> {
  await tx.countLook.createMany({ data: [...looks] });
}
