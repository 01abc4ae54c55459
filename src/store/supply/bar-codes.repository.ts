import { containing, NotFound, type Reader, readCursor } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';
import type { Taken } from '../csv/import-table.js';
import type { TableRow } from '../csv/table-file.js';
import type { BarCodesQuery } from './bar-codes.dto.js';

const WITH_ITEM = { item: { select: { code: true, name: true, unit: true } } } as const satisfies Prisma.BarCodeInclude;
export type BarCodeRow = Prisma.BarCodeGetPayload<{ include: typeof WITH_ITEM }>;

export function barCodesPage(reader: Reader, { itemId, find, cursor, limit }: BarCodesQuery): Promise<BarCodeRow[]> {
  const words = containing(find);
  const [behind] = readCursor(cursor, 1) ?? [];
  const where: Prisma.BarCodeWhereInput[] = [];
  if (itemId !== undefined) where.push({ itemId });
  if (words !== undefined) where.push({ OR: [{ code: words }, { item: { code: words } }, { item: { name: words } }] });
  if (behind !== undefined) where.push({ code: { gt: String(behind) } });
  return reader.barCode.findMany({ where: { AND: where }, orderBy: { code: 'asc' }, take: limit + 1, include: WITH_ITEM });
}

export const withCode = (reader: Reader, code: string): Promise<BarCodeRow | null> => reader.barCode.findUnique({ where: { code }, include: WITH_ITEM });

export const openItem = (reader: Reader, id: string) => reader.item.findFirst({ where: { id, endedOn: null }, select: { id: true } });

/** An item by the code that people call it by, whatever its case. */
export const itemByCode = (reader: Reader, code: string) =>
  reader.item.findFirst({ where: { code: { equals: code, mode: 'insensitive' }, endedOn: null }, select: { id: true, code: true, name: true, unit: true } });

export const makeBarCode = (tx: Reader, data: Prisma.BarCodeUncheckedCreateInput): Promise<BarCodeRow> => tx.barCode.create({ data, include: WITH_ITEM });

export async function removeBarCode(tx: Reader, id: string): Promise<void> {
  const { count } = await tx.barCode.deleteMany({ where: { id } });
  if (count === 0) throw new NotFound('bar code', id);
}

export const barCodeTable = (reader: Reader) =>
  reader.$queryRaw<TableRow[]>`
    SELECT b.code, i.code AS item, trim_scale(b.quantity)::text AS quantity, b.note FROM bar_code b JOIN item i ON i.id = b.item_id ORDER BY b.code`;

/** Which item each of the codes is of, as its code in small letters. */
export const itemsOfCodes = (reader: Reader, codes: readonly string[]) =>
  reader.$queryRaw<{ code: string; item: string }[]>`
    SELECT b.code, lower(i.code) AS item FROM bar_code b JOIN item i ON i.id = b.item_id WHERE b.code = ANY(${[...codes]})`;

const TAKE = `
  WITH given AS (
    SELECT gen_random_uuid() AS id, r.value->>'code' AS code, i.id AS item_id, coalesce((r.value->>'quantity')::numeric, 1) AS quantity, coalesce(r.value->>'note', '') AS note
      FROM jsonb_array_elements($1::jsonb) r JOIN item i ON lower(i.code) = lower(r.value->>'item') AND i.ended_on IS NULL),
  stored AS (
    INSERT INTO bar_code (id, code, item_id, quantity, note, by, at) SELECT id, code, item_id, quantity, note, $2, $3::timestamptz FROM given
    ON CONFLICT (code) DO UPDATE SET quantity = excluded.quantity, note = excluded.note, by = excluded.by, at = excluded.at
    WHERE (bar_code.quantity, bar_code.note) IS DISTINCT FROM (excluded.quantity, excluded.note) RETURNING id)
  SELECT count(g.id)::int AS made, (count(*) - count(g.id))::int AS changed FROM stored s LEFT JOIN given g ON g.id = s.id`;

export async function takeBarCodes(tx: Reader, rows: readonly TableRow[], by: string, now: Date): Promise<Taken> {
  const [taken] = await tx.$queryRawUnsafe<Taken[]>(TAKE, JSON.stringify(rows), by, now);
  return taken ?? { made: 0, changed: 0 };
}
