/**
 * What is on order, drafts among it, and what is on the way from one place to another: of the items in the parameter that is named, null: of all. Quantities in
 * units of use.
 */
export const comingSql = (items: string): string => `
    WITH line AS (
      SELECT l.id, l.item_id, o.id AS order_id, o.no, o.place_id, o.promised_on, o.sent_at, l.quantity * l.units_per_purchase AS ordered
        FROM purchase_order o JOIN purchase_order_line l ON l.order_id = o.id
       WHERE o.state IN ('draft', 'approved', 'sent') AND (${items}::uuid[] IS NULL OR l.item_id = ANY(${items}::uuid[]))),
    came AS (
      SELECT p.line_id, sum(p.quantity) AS good FROM order_receipt_line p JOIN order_receipt r ON r.id = p.receipt_id AND r.taken_back_at IS NULL
       WHERE p.outcome = 'good' AND p.line_id IN (SELECT id FROM line) GROUP BY 1),
    back AS (
      SELECT b.line_id, sum(b.quantity) AS again FROM supplier_return_line b WHERE b.outcome = 'good' AND b.replaced AND b.line_id IN (SELECT id FROM line) GROUP BY 1)
    SELECT place_id, item_id, ordered - coalesce(good, 0) + coalesce(again, 0) AS quantity, 'order' AS kind, order_id, no AS order_no,
           to_char(promised_on, 'YYYY-MM-DD') AS day, to_char(sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD') AS sent_on
      FROM line LEFT JOIN came ON came.line_id = line.id LEFT JOIN back ON back.line_id = line.id WHERE ordered - coalesce(good, 0) + coalesce(again, 0) > 0
    UNION ALL
    SELECT t.to_place_id, m.item_id, sum(CASE WHEN way.id = m.to_place_id THEN m.quantity ELSE -m.quantity END), 'transfer', NULL::uuid, NULL::int,
           to_char(t.expected_on, 'YYYY-MM-DD'), to_char(t.sent_at AT TIME ZONE 'UTC', 'YYYY-MM-DD')
      FROM transfer t JOIN stock_post p ON p.transfer_id = t.id JOIN stock_move m ON m.post_id = p.id JOIN place way ON way.kind = 'transit' AND way.id IN (m.from_place_id, m.to_place_id)
     WHERE t.ended_at IS NULL AND m.owner <> 'client' AND (${items}::uuid[] IS NULL OR m.item_id = ANY(${items}::uuid[]))
     GROUP BY t.id, t.to_place_id, m.item_id HAVING sum(CASE WHEN way.id = m.to_place_id THEN m.quantity ELSE -m.quantity END) > 0`;
