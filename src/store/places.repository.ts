import type { Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { NamedRecords } from '../registry/index.js';

const WITH_OWNER = { site: { select: { name: true } }, person: { select: { name: true } } } as const satisfies Prisma.PlaceInclude;
export type PlaceRow = Prisma.PlaceGetPayload<{ include: typeof WITH_OWNER }>;

export const placeRecords = new NamedRecords<PlaceRow>({
  what: 'place',
  table: (reader) => reader.place,
  orderBy: 'name',
  searched: ['name', 'note'],
  include: WITH_OWNER,
});

/** Somebody of the staff who has not ended, kept from getting two vans at once. */
export async function lockStaff(tx: Reader, id: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`SELECT 1 FROM person WHERE id = ${id}::uuid AND role <> 'client' AND ended_at IS NULL FOR UPDATE`;
  return rows.length === 1;
}

export const isOpenSite = (reader: Reader, id: string): Promise<boolean> => reader.site.count({ where: { id, endedOn: null } }).then((count) => count === 1);

/** The chemicals that lie at a place, or are on the way to it. */
export const chemicalsAt = (reader: Reader, placeId: string) =>
  reader.$queryRaw<{ name: string }[]>`
    SELECT name FROM item WHERE kind = 'chemical' AND (
      id IN (SELECT item_id FROM stock_balance WHERE place_id = ${placeId}::uuid)
      OR id IN (SELECT m.item_id FROM transfer t JOIN stock_post p ON p.transfer_id = t.id JOIN stock_move m ON m.post_id = p.id WHERE t.ended_at IS NULL AND t.to_place_id = ${placeId}::uuid))
     ORDER BY name`;

/** The van of a person, when it has not ended. */
export const vanOf = (reader: Reader, personId: string) =>
  reader.place.findFirst({ where: { personId, kind: 'van', endedOn: null }, select: { id: true, name: true } });
