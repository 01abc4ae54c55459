import { newId, PLANNED_ONCE, type Reader } from '../app/index.js';
import type { Entry } from './core/apply-moves.js';
import type { BalanceChanges, StoredLine } from './core/balance-changes.js';
import type { PostKind } from './core/move-problem.js';
import type { PlaceKind } from './places.dto.js';

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

/** Stock on hand: `$1` places, `$2` items (null: all), `$3` the moment (null: now). Line by line; the lines of an item in the order in which they came to the place. */
export const BALANCE_SQL = `
  SELECT place_id, item_id, lot, owner, owner_id, part_id, on_hand, id AS arrived FROM stock_balance
   WHERE $3::timestamptz IS NULL AND ($1::uuid[] IS NULL OR place_id = ANY($1)) AND ($2::uuid[] IS NULL OR item_id = ANY($2))
  UNION ALL
  SELECT e.place_id, e.item_id, e.lot, e.owner, e.owner_id, e.part_id, sum(e.quantity), min(e.id) FROM stock_effect e
   WHERE $3::timestamptz IS NOT NULL AND ($1::uuid[] IS NULL OR e.place_id = ANY($1)) AND ($2::uuid[] IS NULL OR e.item_id = ANY($2))
     AND EXISTS (SELECT 1 FROM stock_post p WHERE p.id = e.post_id AND p.at <= $3)
   GROUP BY e.place_id, e.item_id, e.lot, e.owner, e.owner_id, e.part_id HAVING sum(e.quantity) <> 0`;

export const balances = (reader: Reader, { placeIds, itemIds, at }: BalanceFilter): Promise<Balance[]> =>
  reader.$queryRawUnsafe<Balance[]>(
    `SELECT place_id AS "placeId", item_id AS "itemId", lot, trim_scale(sum(on_hand))::text AS "onHand" FROM (${BALANCE_SQL}) b
      GROUP BY place_id, item_id, lot ORDER BY place_id, item_id, min(arrived)`,
    placeIds ?? null,
    itemIds ?? null,
    at ?? null,
  );

/** Names of what is locked until the end of a transaction: for one alone, or beside others who lock it so. */
export interface Locks {
  readonly alone: readonly string[];
  readonly shared: readonly string[];
}

/** The lock that keeps a place from being ended while stock is moved there. */
const placeLock = (id: string) => `stock place ${id}`;

/** What keeps others from these items at these places, and from posting under these ids. */
export const locksOf = ({ postIds, pairs, placeIds, partIds, costOf }: Asked & { readonly pairs: readonly { placeId: string; itemId: string }[] }): Locks => ({
  alone: [
    ...postIds.map((id) => `stock post ${id}`),
    ...pairs.map(({ placeId, itemId }) => `stock ${placeId} ${itemId}`),
    ...partIds.map((id) => `stock part ${id}`),
    ...costOf.map((id) => `stock cost ${id}`),
  ],
  shared: placeIds.map(placeLock),
});

const IN_ORDER = `SELECT hashtextextended(name, 0) AS key, bool_and(shared) AS shared, array_agg(name) AS names
        FROM (SELECT unnest($1::text[]) AS name, false AS shared UNION ALL SELECT unnest($2::text[]), true) AS each GROUP BY 1 ORDER BY 1`;

const LOCK = `${PLANNED_ONCE}
    SELECT CASE WHEN shared THEN pg_advisory_xact_lock_shared(key) ELSE pg_advisory_xact_lock(key) END::text FROM (${IN_ORDER}) sorted`;

const LOCK_FREE = `${PLANNED_ONCE}
    SELECT names FROM (${IN_ORDER} OFFSET 0) sorted
     WHERE NOT CASE WHEN shared THEN pg_try_advisory_xact_lock_shared(key) ELSE pg_try_advisory_xact_lock(key) END`;

/** Everybody takes the locks in the same order, so that no two posts wait for each other. */
export async function lockStock(tx: Reader, { alone, shared }: Locks): Promise<void> {
  await tx.$queryRawUnsafe(LOCK, alone, shared);
}

/** Takes what is free, without waiting, and answers what others hold. */
export async function lockFree(tx: Reader, { alone, shared }: Locks): Promise<ReadonlySet<string>> {
  const rows = await tx.$queryRawUnsafe<{ names: string[] }[]>(LOCK_FREE, alone, shared);
  return new Set(rows.flatMap(({ names }) => names));
}

/** Keeps stock from being moved at a place until the end of the transaction. */
export const lockPlaceAlone = (tx: Reader, id: string) => tx.$queryRaw`SELECT pg_advisory_xact_lock(hashtextextended(${placeLock(id)}, 0))::text`;

export const findPost = (reader: Reader, id: string) => reader.stockPost.findUnique({ where: { id }, include: { moves: { orderBy: { id: 'asc' } } } });

/** The purchase order whose receipt or return a post belongs to. */
export async function orderOfPost(reader: Reader, postId: string): Promise<{ no: number; as: 'receipt' | 'return' } | null> {
  const [found] = await reader.$queryRaw<{ no: number; as: 'receipt' | 'return' }[]>`
    SELECT o.no, 'receipt' AS as FROM order_receipt r JOIN purchase_order o ON o.id = r.order_id WHERE r.post_id = ${postId}::uuid
    UNION ALL SELECT o.no, 'return' FROM supplier_return r JOIN purchase_order o ON o.id = r.order_id WHERE r.post_id = ${postId}::uuid`;
  return found ?? null;
}

export interface PlaceNow {
  readonly id: string;
  readonly name: string;
  readonly kind: PlaceKind;
  readonly ended: boolean;
  /** Of its site */
  readonly clientId: string | null;
}

export interface ItemNow {
  readonly id: string;
  readonly code: string;
  /** In millionths of the currency */
  readonly average: string | null;
  /** Of ours at all places, in millionths; where the cost changes */
  readonly held: string | null;
  readonly preserveDays: number | null;
  readonly shelfLifeDays: number | null;
}

export interface PartNow {
  readonly id: string;
  readonly itemId: string;
  readonly serialNumber: string | null;
  readonly isOne: boolean;
  /** Where it lies by the ledger */
  readonly placeId: string | null;
  readonly placeName: string | null;
}

export interface LotNow {
  readonly itemId: string;
  readonly code: string;
  readonly expiresOn: string | null;
  readonly preserveBy: string | null;
  /** It may not be used, wherever it lies */
  readonly held: boolean;
}

/** All that posts must know, as one statement reads it under their locks. */
export interface Known {
  /** Posted under one of the ids */
  readonly earlier: readonly { readonly id: string; readonly requestHash: string }[];
  /** Taken back before */
  readonly reversed: readonly string[];
  readonly places: readonly PlaceNow[];
  readonly items: readonly ItemNow[];
  readonly parts: readonly PartNow[];
  readonly lots: readonly LotNow[];
  readonly owners: readonly { readonly id: string; readonly kind: 'client' | 'supplier' }[];
  readonly lines: readonly StoredLine[];
}

/** What posts ask for. */
export interface Asked {
  readonly postIds: readonly string[];
  /** Posts that are taken back */
  readonly reverses: readonly string[];
  readonly placeIds: readonly string[];
  readonly itemIds: readonly string[];
  readonly partIds: readonly string[];
  readonly lots: readonly string[];
  readonly ownerIds: readonly string[];
  /** Items whose cost changes */
  readonly costOf: readonly string[];
}

const MILLIONTHS = (column: string) => `trunc(${column} * 1000000)::text`;

const KNOWN = `${PLANNED_ONCE} SELECT
  (SELECT coalesce(jsonb_agg(jsonb_build_object('id', id, 'requestHash', request_hash)), '[]') FROM stock_post WHERE id = ANY($1::uuid[])) AS earlier,
  (SELECT coalesce(jsonb_agg(reverses), '[]') FROM stock_post WHERE reverses = ANY($2::uuid[])) AS reversed,
  (SELECT coalesce(jsonb_agg(jsonb_build_object('id', p.id, 'name', p.name, 'kind', p.kind, 'ended', p.ended_on IS NOT NULL, 'clientId', s.client_id)), '[]')
     FROM place p LEFT JOIN site s ON s.id = p.site_id WHERE p.id = ANY($3::uuid[])) AS places,
  (SELECT coalesce(jsonb_agg(jsonb_build_object('id', i.id, 'code', i.code, 'average', ${MILLIONTHS('c.average')}, 'preserveDays', k.preserve_days,
            'shelfLifeDays', u.shelf_life_days, 'held', CASE WHEN i.id = ANY($8::uuid[]) THEN
              (SELECT ${MILLIONTHS('coalesce(sum(b.on_hand), 0)')} FROM stock_balance b WHERE b.item_id = i.id AND b.owner = 'us') END)), '[]')
     FROM item i LEFT JOIN item_cost c ON c.item_id = i.id LEFT JOIN item_keeping k ON k.item_id = i.id LEFT JOIN item_supply u ON u.item_id = i.id
    WHERE i.id = ANY($4::uuid[])) AS items,
  (SELECT coalesce(jsonb_agg(jsonb_build_object('id', a.id, 'itemId', a.item_id, 'serialNumber', a.serial_number, 'isOne', a.set_count = 1, 'placeId', b.place_id, 'placeName', p.name)), '[]')
     FROM part a LEFT JOIN stock_balance b ON b.part_id = a.id LEFT JOIN place p ON p.id = b.place_id WHERE a.id = ANY($5::uuid[])) AS parts,
  (SELECT coalesce(jsonb_agg(jsonb_build_object('itemId', item_id, 'code', code, 'expiresOn', expires_on, 'preserveBy', preserve_by, 'held', coalesce(held, '') <> '')), '[]')
     FROM lot WHERE item_id = ANY($4::uuid[]) AND code = ANY($6::text[])) AS lots,
  (SELECT coalesce(jsonb_agg(o), '[]') FROM (SELECT id, 'client' AS kind FROM client WHERE id = ANY($7::uuid[])
     UNION ALL SELECT id, 'supplier' FROM supplier WHERE id = ANY($7::uuid[])) o) AS owners,
  (SELECT coalesce(jsonb_agg(jsonb_build_object('id', b.id::text, 'placeId', b.place_id, 'itemId', b.item_id, 'lot', b.lot, 'owner', b.owner, 'ownerId', b.owner_id, 'partId', b.part_id,
            'onHand', trim_scale(b.on_hand)::text, 'expiresOn', least(l.expires_on, l.preserve_by), 'held', coalesce(l.held, '') <> '') ORDER BY b.id), '[]')
     FROM stock_balance b LEFT JOIN lot l ON l.item_id = b.item_id AND l.code = b.lot WHERE b.place_id = ANY($3::uuid[]) AND b.item_id = ANY($4::uuid[])) AS lines`;

export async function whatIsKnown(tx: Reader, { postIds, reverses, placeIds, itemIds, partIds, lots, ownerIds, costOf }: Asked): Promise<Known> {
  const [known] = await tx.$queryRawUnsafe<Known[]>(KNOWN, postIds, reverses, placeIds, itemIds, partIds, lots, ownerIds, costOf);
  if (known === undefined) throw new Error('A statement without a FROM answers one row');
  return known;
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
  readonly transferId: string | null;
  readonly expiredReason: string;
  readonly reverses: string | null;
}

const ENTER = `${PLANNED_ONCE}
  WITH post AS (
    INSERT INTO stock_post (id, kind, at, by_id, by, note, request_hash, job_id, report_id, transfer_id, expired_reason, reverses)
    SELECT p.id, p.kind, p.at, p."byId", p.by, p.note, p."requestHash", p."jobId", p."reportId", p."transferId", p."expiredReason", p.reverses
      FROM jsonb_to_recordset($1::jsonb) AS p(id uuid, kind text, at timestamptz, "byId" uuid, by text, note text, "requestHash" text, "jobId" uuid, "reportId" uuid,
           "transferId" uuid, "expiredReason" text, reverses uuid)
  ), gone AS (
    DELETE FROM stock_balance WHERE id = ANY($3::bigint[])
  ), changed AS (
    UPDATE stock_balance b SET on_hand = c."onHand" FROM jsonb_to_recordset($4::jsonb) AS c(id bigint, "onHand" numeric) WHERE b.id = c.id
  ), moved AS (
    INSERT INTO stock_move (post_id, item_id, lot, part_id, quantity, from_place_id, to_place_id, correction, owner, owner_id, from_serial, to_serial, unit_cost)
    SELECT e."postId", e."itemId", e.lot, e."partId", e.quantity, e."fromPlaceId", e."toPlaceId", e.correction, e.owner, e."ownerId", e."fromSerial", e."toSerial", e."unitCost"
      FROM ROWS FROM (jsonb_to_recordset($2::jsonb) AS ("postId" uuid, "itemId" uuid, lot text, "partId" uuid, quantity numeric, "fromPlaceId" uuid, "toPlaceId" uuid, correction boolean, owner text,
             "ownerId" uuid, "fromSerial" boolean, "toSerial" boolean, "unitCost" numeric)) WITH ORDINALITY AS e("postId", "itemId", lot, "partId", quantity, "fromPlaceId", "toPlaceId", correction, owner,
             "ownerId", "fromSerial", "toSerial", "unitCost", place) ORDER BY e.place
  )
  INSERT INTO stock_balance (place_id, item_id, lot, owner, owner_id, part_id, on_hand)
  SELECT a."placeId", a."itemId", a.lot, a.owner, a."ownerId", a."partId", a."onHand"
    FROM jsonb_to_recordset($5::jsonb) AS a("placeId" uuid, "itemId" uuid, lot text, owner text, "ownerId" uuid, "partId" uuid, "onHand" numeric)`;

/** Posts, their entries in the order of the list, and what they change of the balance: one statement. */
export async function enterPosts(
  tx: Reader,
  posts: readonly NewPost[],
  entries: readonly (Entry & { readonly postId: string })[],
  { changed, gone, added }: BalanceChanges,
): Promise<void> {
  const json = JSON.stringify;
  await tx.$executeRawUnsafe(ENTER, json(posts), json(entries), gone.map(BigInt), json(changed), json(added));
}

/** A serial number that moves from one line to another would be there twice within one statement: its old line goes first. */
export async function leaveLines(tx: Reader, ids: readonly string[]): Promise<void> {
  await tx.$executeRaw`DELETE FROM stock_balance WHERE id = ANY(${ids.map(BigInt)}::bigint[])`;
}

export interface NewLot {
  readonly itemId: string;
  readonly code: string;
  readonly receivedOn: string;
  readonly expiresOn: string | null;
  readonly preserveBy: string | null;
}

/** Lots that nobody knew; of one that is known without an expiry, the expiry. */
export async function keepLots(tx: Reader, lots: readonly NewLot[]): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO lot (id, item_id, code, received_on, expires_on, preserved_on, preserve_by)
     SELECT l.id, l."itemId", l.code, l."receivedOn", l."expiresOn", CASE WHEN l."preserveBy" IS NOT NULL THEN l."receivedOn" END, l."preserveBy"
       FROM jsonb_to_recordset($1::jsonb) AS l(id uuid, "itemId" uuid, code text, "receivedOn" date, "expiresOn" date, "preserveBy" date) ORDER BY l."itemId", l.code
     ON CONFLICT (item_id, code) DO UPDATE SET expires_on = coalesce(lot.expires_on, excluded.expires_on)`,
    JSON.stringify(lots.map((lot) => ({ id: newId(), ...lot }))),
  );
}

export async function setAverages(tx: Reader, averages: readonly { itemId: string; average: string }[]): Promise<void> {
  await tx.$executeRawUnsafe(
    `INSERT INTO item_cost (item_id, average) SELECT a."itemId", a.average FROM jsonb_to_recordset($1::jsonb) AS a("itemId" uuid, average numeric)
     ON CONFLICT (item_id) DO UPDATE SET average = excluded.average`,
    JSON.stringify(averages),
  );
}

/** What a job took is taken off what was kept back for it, the earliest needed first. */
export async function takeReserved(tx: Reader, jobId: string, at: Date, taken: readonly { itemId: string; quantity: string }[]): Promise<void> {
  await tx.$executeRawUnsafe(
    `WITH asked AS (SELECT "itemId" AS item_id, sum(quantity) AS quantity FROM jsonb_to_recordset($2::jsonb) AS t("itemId" uuid, quantity numeric) GROUP BY 1),
          open AS (SELECT r.id, r.quantity - r.taken AS rest, a.quantity AS asked,
                          sum(r.quantity - r.taken) OVER (PARTITION BY r.item_id ORDER BY r.needed_on, r.id) - (r.quantity - r.taken) AS before
                     FROM reservation r JOIN asked a ON a.item_id = r.item_id WHERE r.ended_at IS NULL
                      AND (r.job_id = $1::uuid OR r.job_id IS NULL AND r.visit_id = (SELECT visit_id FROM job WHERE id = $1::uuid)))
     UPDATE reservation r SET taken = r.taken + least(o.rest, o.asked - o.before), ended_at = CASE WHEN o.asked - o.before >= o.rest THEN $3::timestamptz END,
            outcome = CASE WHEN o.asked - o.before >= o.rest THEN 'taken' END
       FROM open o WHERE o.id = r.id AND o.asked > o.before`,
    jobId,
    JSON.stringify(taken),
    at,
  );
}
