import type { Reader } from '../../app/index.js';

/** Lines older than these tell little of today. */
const YEARS = 3;
/** Of one supplier, the latest */
const LINES_OF_A_SUPPLIER = 200;

export interface OfferTerms {
  readonly itemId: string;
  readonly supplierId: string;
  readonly supplierName: string;
  readonly statedDays: number | null;
}

/** The offers of items that can be bought, the one that is asked first first. */
export const offerTerms = (reader: Reader, itemIds: readonly string[]) =>
  reader.$queryRaw<OfferTerms[]>`
    SELECT o.item_id AS "itemId", o.supplier_id AS "supplierId", s.name AS "supplierName", coalesce(o.lead_days, s.lead_days) AS "statedDays"
      FROM offer o JOIN supplier s ON s.id = o.supplier_id WHERE o.item_id = ANY(${[...itemIds]}::uuid[]) AND o.ended_on IS NULL AND s.ended_on IS NULL
     ORDER BY o.item_id, o.rank, s.name`;

export interface SeenLine {
  readonly supplierId: string;
  readonly itemId: string;
  readonly days: number;
  readonly share: number;
  readonly came: boolean;
  readonly statedDays: number | null;
}

/**
 * What came of lines of these suppliers, each part by its share, and what has not come: awaited until now, or until it was given up.
 * Days are from the day on which the order was sent.
 */
export const seenLines = (reader: Reader, supplierIds: readonly string[], now: Date) =>
  reader.$queryRaw<SeenLine[]>`
    WITH line AS (
      SELECT l.id, l.item_id, o.supplier_id, o.sent_at, o.ended_at, o.state, l.quantity * l.units_per_purchase AS ordered, coalesce(f.lead_days, s.lead_days) AS stated,
             row_number() OVER (PARTITION BY o.supplier_id ORDER BY o.sent_at DESC, l.id) AS nth
        FROM purchase_order_line l JOIN purchase_order o ON o.id = l.order_id JOIN supplier s ON s.id = o.supplier_id
        LEFT JOIN offer f ON f.item_id = l.item_id AND f.supplier_id = o.supplier_id
       WHERE o.supplier_id = ANY(${[...supplierIds]}::uuid[]) AND o.sent_at > ${now}::timestamptz - make_interval(years => ${YEARS}::int)),
    part AS (
      SELECT line.id, r.at, least(sum(p.quantity), line.ordered) / line.ordered AS share
        FROM line JOIN order_receipt_line p ON p.line_id = line.id AND p.outcome = 'good' JOIN order_receipt r ON r.id = p.receipt_id AND r.taken_back_at IS NULL
       WHERE nth <= ${LINES_OF_A_SUPPLIER}::int GROUP BY line.id, line.ordered, r.id, r.at),
    total AS (SELECT id, sum(share) AS came FROM part GROUP BY id)
    SELECT line.supplier_id AS "supplierId", line.item_id AS "itemId", greatest(0, part.at::date - line.sent_at::date)::int AS days,
           (part.share / greatest(1, total.came))::float8 AS share, true AS came, line.stated AS "statedDays"
      FROM line JOIN part ON part.id = line.id JOIN total ON total.id = line.id
    UNION ALL
    SELECT line.supplier_id, line.item_id, greatest(0, coalesce(line.ended_at, ${now}::timestamptz)::date - line.sent_at::date)::int,
           (1 - coalesce(total.came, 0))::float8, false, line.stated
      FROM line LEFT JOIN total ON total.id = line.id WHERE nth <= ${LINES_OF_A_SUPPLIER}::int AND coalesce(total.came, 0) < 1`;
