import type { Reader } from '../../../app/index.js';
import type { LineDetail } from '../detail-of-line.js';

export interface JointRow {
  readonly id: string;
  readonly itemId: string;
  readonly itemCode: string;
  readonly itemName: string;
  readonly unit: string;
  readonly placeId: string;
  readonly placeName: string;
  readonly isDue: boolean;
  readonly canOrder: boolean;
  /** Of what is due */
  readonly purchase: LineDetail['purchase'];
  /** Of what is not */
  readonly alongWith: LineDetail['purchase'];
  readonly orderBy: string | null;
  readonly neededBy: string | null;
  /** Where somebody decided on it */
  readonly decidedSupplierId: string | null;
  readonly decidedQuantity: string | null;
}

/** What is to be bought and was not dismissed, and what an order for it may take along. */
export const jointRows = (reader: Reader, placeId: string | null) =>
  reader.$queryRaw<JointRow[]>`
    SELECT l.id, l.item_id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, l.place_id AS "placeId", p.name AS "placeName",
           l.action = 'buy' OR d.id IS NOT NULL AS "isDue", coalesce((l.detail->>'canOrder')::boolean, false) AS "canOrder",
           nullif(l.detail->'purchase', 'null') AS purchase, nullif(l.detail->'alongWith', 'null') AS "alongWith",
           to_char(l.order_by, 'YYYY-MM-DD') AS "orderBy", to_char(l.needed_by, 'YYYY-MM-DD') AS "neededBy",
           d.supplier_id AS "decidedSupplierId", trim_scale(d.quantity)::text AS "decidedQuantity"
      FROM reorder_line l JOIN item i ON i.id = l.item_id AND i.ended_on IS NULL JOIN place p ON p.id = l.place_id AND p.ended_on IS NULL
      LEFT JOIN reorder_decision d ON d.item_id = l.item_id AND d.place_id = l.place_id AND d.ended_at IS NULL
     WHERE (${placeId}::uuid IS NULL OR l.place_id = ${placeId}::uuid) AND d.state IS DISTINCT FROM 'dismissed' AND l.action <> 'transfer'
       AND (l.action = 'buy' OR d.id IS NOT NULL OR jsonb_typeof(l.detail->'alongWith') = 'object')
     ORDER BY i.code, l.id`;

/** The least that suppliers take an order for, in their own currency. */
export const supplierMinimums = (reader: Reader, ids: readonly string[]) =>
  reader.$queryRaw<{ id: string; name: string; currency: string; minimumOrder: string | null }[]>`
    SELECT id, name, currency, trim_scale(minimum_order)::text AS "minimumOrder" FROM supplier WHERE id = ANY(${[...ids]}::uuid[]) ORDER BY name`;
