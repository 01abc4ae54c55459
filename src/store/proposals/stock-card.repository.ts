import type { Reader } from '../../app/index.js';

export interface ChangeOfWeek {
  readonly placeId: string;
  /** 0: within the last seven days, 1: the seven before them */
  readonly weeksAgo: number;
  readonly change: number;
}

/** Weeks of the past that a card shows. */
export const PAST_WEEKS = 52;

/** By how much stock that is no client's changed at each place, week by week. */
export const weeklyChanges = (reader: Reader, itemIds: readonly string[], now: Date) =>
  reader.$queryRaw<ChangeOfWeek[]>`
    SELECT e.place_id AS "placeId", greatest(0, floor(extract(epoch FROM ${now}::timestamptz - p.at) / 604800))::int AS "weeksAgo", sum(e.quantity)::float8 AS change
      FROM stock_effect e JOIN stock_post p ON p.id = e.post_id
     WHERE e.item_id = ANY(${[...itemIds]}::uuid[]) AND e.owner <> 'client' AND p.at > ${now}::timestamptz - make_interval(weeks => ${PAST_WEEKS}::int) GROUP BY 1, 2`;

/** An item with what is bought in its stead, whether or not it is still bought itself. */
export async function itemAsked(reader: Reader, itemId: string) {
  const [item] = await reader.$queryRaw<
    { itemId: string; itemCode: string; itemName: string; unit: string; supersededById: string | null; supersededByCode: string | null }[]
  >`
    SELECT i.id AS "itemId", i.code AS "itemCode", i.name AS "itemName", i.unit, s.superseded_by_id AS "supersededById", n.code AS "supersededByCode"
      FROM item i LEFT JOIN item_supply s ON s.item_id = i.id LEFT JOIN item n ON n.id = s.superseded_by_id WHERE i.id = ${itemId}::uuid`;
  return item ?? null;
}
