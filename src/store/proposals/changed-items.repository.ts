import type { Reader } from '../../app/index.js';

/**
 * Items that something was entered of since a moment: moves, reservations, orders, offers' orders, settings, lots that were held or released with their post; and
 * items of sheets whose dues were made again.
 */
export const changedItems = async (reader: Reader, since: Date): Promise<string[]> =>
  (
    await reader.$queryRaw<{ itemId: string }[]>`
    SELECT m.item_id AS "itemId" FROM stock_post p JOIN stock_move m ON m.post_id = p.id WHERE p.entered_at > ${since}
    UNION SELECT item_id FROM reservation WHERE made_at > ${since} OR ended_at > ${since}
    UNION SELECT l.item_id FROM purchase_order_change c JOIN purchase_order_line l ON l.order_id = c.order_id WHERE c.at > ${since}
    UNION SELECT item_id FROM stock_setting WHERE at > ${since}
    UNION SELECT p.item_id FROM (SELECT DISTINCT task_sheet_id FROM due WHERE computed_at > ${since}) d JOIN task_sheet_version v ON v.task_sheet_id = d.task_sheet_id
          JOIN task_sheet_part p ON p.version_id = v.id
    UNION SELECT p.item_id FROM job_change c JOIN job_task t ON t.job_id = c.job_id JOIN task_sheet_part p ON p.version_id = t.sheet_version_id WHERE c.at > ${since}
    UNION SELECT part.item_id FROM fitting f JOIN part ON part.id = f.part_id WHERE f.removed_at IS NULL AND EXISTS (
          SELECT 1 FROM position pos JOIN skid s ON s.id = pos.skid_id JOIN outlook o ON o.skid_no = s.no AND o.subject = pos.id::text
           WHERE pos.id = f.position_id AND pos.kind = 'pre-filter' AND o.computed_at > ${since})`
  ).map(({ itemId }) => itemId);
