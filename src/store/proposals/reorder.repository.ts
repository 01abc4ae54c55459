import { likeOf, type Reader } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';
import type { CatalogueFit } from '../core/demand/catalogue/fit-catalogue.js';
import type { OutlookRecord } from '../core/demand/types.js';
import type { LineDetail } from './detail-of-line.js';
import type { ReorderQuery } from './reorder.dto.js';

export interface LineRow {
  readonly id: string;
  readonly itemId: string;
  readonly itemCode: string;
  readonly itemName: string;
  readonly unit: string;
  readonly placeId: string;
  readonly placeName: string;
  readonly placeKind: 'store' | 'van' | 'site';
  readonly computedAt: Date;
  readonly detail: LineDetail;
  readonly decision: DecisionRow | null;
  readonly sortDay: string;
  /** Of the whole list */
  readonly total: number;
}

export interface DecisionRow {
  readonly id: string;
  readonly itemId: string;
  readonly placeId: string;
  readonly state: 'accepted' | 'changed' | 'dismissed';
  readonly quantity: string;
  readonly proposed: string;
  readonly position: string;
  readonly supplierId: string | null;
  readonly supplierName: string | null;
  readonly reason: string;
  readonly until: string | null;
  readonly at: string;
  readonly by: string;
  readonly endedAt: string | null;
  readonly endedBy: string | null;
  readonly endedWhy: string | null;
  readonly orderId: string | null;
}

const DECISION = `SELECT d.id, d.item_id AS "itemId", d.place_id AS "placeId", d.state, trim_scale(d.quantity)::text AS quantity, trim_scale(d.proposed)::text AS proposed,
  trim_scale(d.position)::text AS position, d.supplier_id AS "supplierId", s.name AS "supplierName", d.reason, to_char(d.until, 'YYYY-MM-DD') AS until, d.at, d.by, d.ended_at AS "endedAt",
  d.ended_by AS "endedBy", d.ended_why AS "endedWhy", d.order_id AS "orderId" FROM reorder_decision d LEFT JOIN supplier s ON s.id = d.supplier_id`;

/** What of the list is shown, by the decision that holds. */
const SHOWN = {
  'to do': `l.action <> 'nothing' AND live.id IS NULL`,
  accepted: `live.state IN ('accepted', 'changed')`,
  dismissed: `live.state = 'dismissed'`,
  idle: `l.pace IN ('slow', 'dead')`,
  all: 'true',
} as const;

type Narrowed = Omit<ReorderQuery, 'limit' | 'cursor'>;

/**
 * The soonest to be ordered first. `$1` place, `$2` supplier, `$3` day, `$4` words, `$5` lines. Which lines are shown is found without their details: those of a long list would all be
 * read, and sorted, for one page of them.
 */
const listSql = (show: keyof typeof SHOWN, more: string) => `
  WITH shown AS (
    SELECT l.id, live.id AS "decisionId", coalesce(to_char(l.order_by, 'YYYY-MM-DD'), '9999') AS "sortDay", i.code, p.name AS place, count(*) OVER ()::int AS total
      FROM reorder_line l JOIN item i ON i.id = l.item_id JOIN place p ON p.id = l.place_id
      LEFT JOIN reorder_decision live ON live.item_id = l.item_id AND live.place_id = l.place_id AND live.ended_at IS NULL
     WHERE ${SHOWN[show]} AND ($1::uuid IS NULL OR l.place_id = $1) AND ($2::uuid IS NULL OR l.supplier_id = $2 OR live.supplier_id = $2)
       AND ($3::date IS NULL OR l.order_by <= $3) AND ($4::text IS NULL OR concat_ws(' ', i.code, i.name, p.name) ILIKE $4) AND ($5::uuid[] IS NULL OR l.id = ANY($5))
     ORDER BY "sortDay", i.code, p.name, l.id ${more})
  SELECT l.id, l.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, l.place_id AS "placeId", p.name AS "placeName", p.kind AS "placeKind", l.computed_at AS "computedAt",
         l.detail, to_jsonb(live) AS decision, shown."sortDay", shown.total
    FROM shown JOIN reorder_line l ON l.id = shown.id JOIN item i ON i.id = l.item_id JOIN place p ON p.id = l.place_id
    LEFT JOIN LATERAL (${DECISION} WHERE d.id = shown."decisionId") live ON true
   ORDER BY shown."sortDay", shown.code, shown.place, shown.id`;

const given = ({ placeId, supplierId, orderBy, find }: Partial<Narrowed>, ids: readonly string[] | null = null) => [
  placeId ?? null,
  supplierId ?? null,
  orderBy ?? null,
  likeOf(find),
  ids,
];

/** A computed list: its cursor holds how far it was read. */
export async function linesPage(reader: Reader, { limit, cursor: _, ...narrowed }: ReorderQuery, offset: number): Promise<LineRow[]> {
  return reader.$queryRawUnsafe<LineRow[]>(listSql(narrowed.show, 'LIMIT $6::int OFFSET $7::int'), ...given(narrowed), limit + 1, offset);
}

export const linesWhole = (reader: Reader, narrowed: Narrowed) => reader.$queryRawUnsafe<LineRow[]>(listSql(narrowed.show, ''), ...given(narrowed));

export async function lineOfId(reader: Reader, id: string): Promise<LineRow | null> {
  const [row] = await reader.$queryRawUnsafe<LineRow[]>(listSql('all', ''), ...given({}, [id]));
  return row ?? null;
}

/** All that was decided on items, the latest first. */
export async function decisionsOf(reader: Reader, itemIds: readonly string[]): Promise<DecisionRow[]> {
  const rows = await reader.$queryRawUnsafe<{ row: DecisionRow }[]>(
    `SELECT to_jsonb(x) AS row FROM (${DECISION} WHERE d.item_id = ANY($1::uuid[]) ORDER BY d.at DESC, d.id DESC LIMIT 200) x`,
    itemIds,
  );
  return rows.map(({ row }) => row);
}

/** By item and place, the ids that lines keep. */
export const lineIds = (reader: Reader, itemIds: readonly string[]) =>
  reader.reorderLine.findMany({ where: { itemId: { in: [...itemIds] } }, select: { id: true, itemId: true, placeId: true } });

export interface RunRow {
  readonly computedAt: Date | null;
  readonly seenUntil: Date | null;
}

export async function lastRun(reader: Reader): Promise<RunRow> {
  const row = await reader.reorderRun.findUnique({ where: { id: 1 }, select: { computedAt: true, seenUntil: true } });
  return row ?? { computedAt: null, seenUntil: null };
}

export const keepRun = (tx: Reader, run: Prisma.ReorderRunUncheckedUpdateInput) => tx.reorderRun.update({ where: { id: 1 }, data: run, select: { id: true } });

/** What was learnt, as it is kept. */
export interface Learnt {
  readonly fit: CatalogueFit;
  readonly record: OutlookRecord;
}

export async function readLearnt(reader: Reader): Promise<(Learnt & { readonly fittedAt: Date; readonly items: number }) | null> {
  const row = await reader.catalogueFitted.findUnique({ where: { id: 1 } });
  if (row === null) return null;
  const { fit, record } = row.fit as unknown as Learnt;
  return { fit, record, fittedAt: row.fittedAt, items: row.items };
}

export async function keepLearnt(tx: Reader, learnt: Learnt, fittedAt: Date, items: number): Promise<void> {
  const row = { fittedAt, items, fit: learnt as unknown as Prisma.InputJsonValue };
  await tx.catalogueFitted.upsert({ where: { id: 1 }, create: { id: 1, ...row }, update: row, select: { id: true } });
}

export interface StoredLine {
  readonly itemId: string;
  readonly placeId: string;
  readonly detail: LineDetail;
  readonly needMean: number;
}

/** Writes lines over those that are there, which keep their ids. */
export async function storeLines(tx: Reader, lines: readonly StoredLine[], at: Date): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO reorder_line AS old (id, item_id, place_id, computed_at, action, quantity, position, on_hand, supplier_id, order_by, needed_by, pace, need_mean, detail)
     SELECT gen_random_uuid(), "itemId", "placeId", $2::timestamptz, detail->>'action', (detail->>'quantity')::numeric, (detail->>'position')::numeric, (detail->>'onHand')::numeric,
            (detail->'purchase'->>'supplierId')::uuid, (detail->>'orderBy')::date, (detail->>'neededBy')::date, detail->'pace'->>'kind', "needMean", detail
       FROM jsonb_to_recordset($1::jsonb) AS n("itemId" uuid, "placeId" uuid, "needMean" float8, detail jsonb)
     ON CONFLICT (item_id, place_id) DO UPDATE SET computed_at = excluded.computed_at, action = excluded.action, quantity = excluded.quantity, position = excluded.position,
        on_hand = excluded.on_hand, supplier_id = excluded.supplier_id, order_by = excluded.order_by, needed_by = excluded.needed_by, pace = excluded.pace, need_mean = excluded.need_mean,
        detail = excluded.detail`,
    JSON.stringify(lines),
    at,
  );
}

/** Lines of these items, or of all, that are none any more. */
export const dropLines = (tx: Reader, itemIds: readonly string[] | null, left: readonly { readonly itemId: string; readonly placeId: string }[]) =>
  tx.$executeRaw`
    DELETE FROM reorder_line l WHERE (${itemIds}::uuid[] IS NULL OR l.item_id = ANY(${itemIds}::uuid[])) AND NOT EXISTS (
      SELECT 1 FROM unnest(${left.map(({ itemId }) => itemId)}::uuid[], ${left.map(({ placeId }) => placeId)}::uuid[]) AS n(item_id, place_id)
       WHERE n.item_id = l.item_id AND n.place_id = l.place_id)`;

/** Keeps one computation from running beside another until the end of the transaction. */
export const lockReorder = (tx: Reader) => tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended('reorder lines', 0))::text`;
