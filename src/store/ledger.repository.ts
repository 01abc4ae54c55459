import type { Reader } from '../app/index.js';
import type { Entry } from './core/apply-moves.js';
import type { PostKind } from './core/move-problem.js';

export interface BalanceFilter {
  readonly placeIds?: readonly string[];
  readonly itemIds?: readonly string[];
  /** As it was at this moment; left out: with all that is entered */
  readonly at?: Date;
}

export interface Balance {
  readonly placeId: string;
  readonly itemId: string;
  readonly lot: string | null;
  readonly onHand: string;
}

/** Stock on hand: `$1` places, `$2` items (null: all), `$3` the moment. The lots of an item in the order in which they came to the place. */
export const BALANCE_SQL = `
  SELECT place_id, item_id, lot, sum(quantity) AS on_hand, min(arrived) AS arrived FROM (
    SELECT m.to_place_id AS place_id, m.item_id, m.lot, m.quantity, m.id AS arrived, m.post_id FROM stock_move m
     WHERE m.to_place_id IS NOT NULL AND ($1::uuid[] IS NULL OR m.to_place_id = ANY($1)) AND ($2::uuid[] IS NULL OR m.item_id = ANY($2))
    UNION ALL
    SELECT m.from_place_id, m.item_id, m.lot, -m.quantity, NULL, m.post_id FROM stock_move m
     WHERE m.from_place_id IS NOT NULL AND ($1::uuid[] IS NULL OR m.from_place_id = ANY($1)) AND ($2::uuid[] IS NULL OR m.item_id = ANY($2))
  ) effect WHERE $3::timestamptz IS NULL OR EXISTS (SELECT 1 FROM stock_post p WHERE p.id = effect.post_id AND p.at <= $3)
  GROUP BY place_id, item_id, lot HAVING sum(quantity) <> 0`;

export const balances = (reader: Reader, { placeIds, itemIds, at }: BalanceFilter): Promise<Balance[]> =>
  reader.$queryRawUnsafe<Balance[]>(
    `SELECT place_id AS "placeId", item_id AS "itemId", lot, trim_scale(on_hand)::text AS "onHand" FROM (${BALANCE_SQL}) b ORDER BY place_id, item_id, arrived NULLS LAST`,
    placeIds ?? null,
    itemIds ?? null,
    at ?? null,
  );

/**
 * Keeps others from these items at these places, and from posting under this id, until the end of the transaction.
 * Everybody takes the locks in the same order, so that no two posts wait for each other.
 */
export async function lockStock(tx: Reader, postId: string, pairs: readonly { placeId: string; itemId: string }[]): Promise<void> {
  const keys = [`stock post ${postId}`, ...pairs.map(({ placeId, itemId }) => `stock ${placeId} ${itemId}`)];
  await tx.$queryRaw`
    SELECT pg_advisory_xact_lock(key)::text FROM (SELECT DISTINCT hashtextextended(name, 0) AS key FROM unnest(${keys}::text[]) AS name ORDER BY key) sorted`;
}

export const findPost = (reader: Reader, id: string) => reader.stockPost.findUnique({ where: { id }, include: { moves: { orderBy: { id: 'asc' } } } });

export const reversalOf = (reader: Reader, postId: string) => reader.stockPost.findUnique({ where: { reverses: postId }, select: { id: true } });

interface Named {
  readonly what: 'item' | 'place' | 'part';
  readonly id: string;
  /** Of a part: the id of its item */
  readonly name: string;
  readonly ended: boolean;
}

/** The names of what is moved, and that there is such a thing. Places stay open until the end of the transaction. */
export async function namesOf(tx: Reader, itemIds: readonly string[], placeIds: readonly string[], partIds: readonly string[]) {
  const rows = await tx.$queryRaw<Named[]>`
    WITH places AS (SELECT id, name, ended_on IS NOT NULL AS ended FROM place WHERE id = ANY(${[...placeIds]}::uuid[]) ORDER BY id FOR SHARE)
    SELECT 'place' AS what, id, name, ended FROM places
    UNION ALL SELECT 'item', id, code, ended_on IS NOT NULL FROM item WHERE id = ANY(${[...itemIds]}::uuid[])
    UNION ALL SELECT 'part', id, item_id::text, false FROM part WHERE id = ANY(${[...partIds]}::uuid[])`;
  const of = (what: Named['what']) => new Map(rows.filter((row) => row.what === what).map((row) => [row.id, row]));
  return { items: of('item'), places: of('place'), parts: of('part') };
}

export interface NewPost {
  readonly id: string;
  readonly kind: PostKind;
  readonly at: Date;
  readonly byId: string;
  readonly by: string;
  readonly note: string;
  readonly requestHash: string;
  readonly jobId: string | null;
  readonly reportId: string | null;
  readonly reverses: string | null;
}

/** The post and its entries in one statement each, in the order of the list. */
export async function enterPost(tx: Reader, post: NewPost, entries: readonly Entry[]): Promise<void> {
  await tx.stockPost.create({ data: post, select: { id: true } });
  await tx.$executeRawUnsafe(
    `INSERT INTO stock_move (post_id, item_id, lot, part_id, quantity, from_place_id, to_place_id, correction)
     SELECT $1::uuid, item_id, lot, part_id, quantity, from_place_id, to_place_id, correction
       FROM unnest($2::uuid[], $3::text[], $4::uuid[], $5::numeric[], $6::uuid[], $7::uuid[], $8::boolean[])
            WITH ORDINALITY AS e(item_id, lot, part_id, quantity, from_place_id, to_place_id, correction, place) ORDER BY place`,
    post.id,
    entries.map(({ itemId }) => itemId),
    entries.map(({ lot }) => lot),
    entries.map(({ partId }) => partId),
    entries.map(({ quantity }) => quantity),
    entries.map(({ fromPlaceId }) => fromPlaceId),
    entries.map(({ toPlaceId }) => toPlaceId),
    entries.map(({ correction }) => correction),
  );
}
