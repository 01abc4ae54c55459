import type { Reader } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';

export async function enterDecision(tx: Reader, decision: Prisma.ReorderDecisionUncheckedCreateInput): Promise<void> {
  await tx.reorderDecision.create({ data: decision, select: { id: true } });
}

export const endDecision = (
  tx: Reader,
  { itemId, placeId }: { itemId: string; placeId: string },
  end: { readonly endedAt: Date; readonly endedBy: string; readonly endedWhy: 'taken back' | 'decided anew' },
) => tx.reorderDecision.updateMany({ where: { itemId, placeId, endedAt: null }, data: end });

export interface AcceptedRow {
  readonly id: string;
  readonly itemId: string;
  readonly placeId: string;
  readonly quantity: string;
  readonly supplierId: string | null;
  readonly reason: string;
  readonly neededBy: string | null;
  readonly reasons: string | null;
}

/** What was accepted to be bought and is not ordered yet; kept from others until the end of the transaction. */
export const acceptedLines = (tx: Reader, { supplierId, placeId }: { supplierId: string | null; placeId: string | null }) =>
  tx.$queryRaw<AcceptedRow[]>`
    SELECT d.id, d.item_id AS "itemId", d.place_id AS "placeId", trim_scale(d.quantity)::text AS quantity, d.supplier_id AS "supplierId", d.reason,
           to_char(l.needed_by, 'YYYY-MM-DD') AS "neededBy", l.detail->'reasons'->0->>'text' AS reasons
      FROM reorder_decision d JOIN item i ON i.id = d.item_id LEFT JOIN reorder_line l ON l.item_id = d.item_id AND l.place_id = d.place_id
     WHERE d.ended_at IS NULL AND d.state IN ('accepted', 'changed') AND coalesce(l.action, 'buy') <> 'transfer'
       AND (${placeId}::uuid IS NULL OR d.place_id = ${placeId}::uuid) AND (${supplierId}::uuid IS NULL OR coalesce(d.supplier_id, l.supplier_id) = ${supplierId}::uuid)
     ORDER BY i.code, d.id LIMIT 500 FOR UPDATE OF d`;

/** Ends what has become a line of an order. */
export const endOrdered = (tx: Reader, ids: readonly string[], at: Date, by: string) =>
  tx.$queryRaw<{ id: string; itemId: string }[]>`
    UPDATE reorder_decision d SET ended_at = ${at}, ended_by = ${by}, ended_why = 'ordered', order_id = l.order_id FROM purchase_order_line l
     WHERE d.id = ANY(${[...ids]}::uuid[]) AND d.ended_at IS NULL AND l.proposal_id = d.id RETURNING d.id, d.item_id AS "itemId"`;

/** Keeps others from deciding on the same line until the end of the transaction. */
export const lockLine = (tx: Reader, { itemId, placeId }: { itemId: string; placeId: string }) =>
  tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${`reorder ${itemId} ${placeId}`}, 0))::text`;

/**
 * Decisions that hold no more: of what is dismissed, when its day has passed, when there is less than there was then, or more is wanted; of what was accepted, when
 * nothing is wanted any more. Of these items, or of all.
 */
export const endPassedDecisions = (tx: Reader, itemIds: readonly string[] | null, today: string, at: Date) =>
  tx.$executeRaw`
    UPDATE reorder_decision d SET ended_at = ${at}, ended_why = CASE WHEN d.state <> 'dismissed' THEN 'not needed any more' ELSE 'things changed' END
      FROM (SELECT d.id, l.action, l.quantity, l.position FROM reorder_decision d LEFT JOIN reorder_line l ON l.item_id = d.item_id AND l.place_id = d.place_id WHERE d.ended_at IS NULL) now
     WHERE now.id = d.id AND (${itemIds}::uuid[] IS NULL OR d.item_id = ANY(${itemIds}::uuid[]))
       AND CASE WHEN d.state = 'dismissed' THEN d.until < ${today}::date OR now.position < d.position OR now.quantity > d.proposed
                ELSE d.proposed > 0 AND coalesce(now.action, 'nothing') = 'nothing' END`;
