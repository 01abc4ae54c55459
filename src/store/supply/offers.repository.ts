import { containing, NotFound, type Reader, readCursor, takeEdited } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';
import type { TableRow } from '../csv/table-file.js';
import type { OffersQuery } from './offers.dto.js';

const WITH_NAMES = {
  item: { select: { code: true, name: true, unit: true, endedOn: true } },
  supplier: { select: { name: true, currency: true, leadDays: true, endedOn: true } },
  prices: { orderBy: { fromDay: 'desc' } },
} as const satisfies Prisma.OfferInclude;
export type OfferRow = Prisma.OfferGetPayload<{ include: typeof WITH_NAMES }>;

/** By the item's code, then the supplier's name. */
export function offersPage(reader: Reader, { itemId, supplierId, ended, find, cursor, limit }: OffersQuery): Promise<OfferRow[]> {
  const words = containing(find);
  const where: Prisma.OfferWhereInput[] = [{ endedOn: ended === 'true' ? { not: null } : null }];
  if (itemId !== undefined) where.push({ itemId });
  if (supplierId !== undefined) where.push({ supplierId });
  if (words !== undefined) where.push({ OR: [{ item: { code: words } }, { item: { name: words } }, { supplier: { name: words } }, { supplierCode: words }] });
  const [code, supplier] = (readCursor(cursor, 2) ?? []).map(String);
  if (code !== undefined && supplier !== undefined) {
    where.push({ OR: [{ item: { code: { gt: code } } }, { item: { code }, supplier: { name: { gt: supplier } } }] });
  }
  return reader.offer.findMany({
    where: { AND: where },
    orderBy: [{ item: { code: 'asc' } }, { supplier: { name: 'asc' } }],
    take: limit + 1,
    include: WITH_NAMES,
  });
}

export async function findOffer(reader: Reader, id: string): Promise<OfferRow> {
  const row = await reader.offer.findUnique({ where: { id }, include: WITH_NAMES });
  if (row === null) throw new NotFound('offer', id);
  return row;
}

export const offerOf = (reader: Reader, itemId: string, supplierId: string) =>
  reader.offer.findUnique({ where: { itemId_supplierId: { itemId, supplierId } }, select: { id: true, endedOn: true } });

/** The item and the supplier, where they have not ended; both stay so until the end of the transaction. */
export async function holdEnds(tx: Reader, itemId: string, supplierId: string) {
  await tx.$queryRaw`SELECT 1 FROM item WHERE id = ${itemId}::uuid FOR SHARE`;
  await tx.$queryRaw`SELECT 1 FROM supplier WHERE id = ${supplierId}::uuid FOR SHARE`;
  const [item, supplier] = [
    await tx.item.findFirst({ where: { id: itemId, endedOn: null }, select: { unit: true } }),
    await tx.supplier.findFirst({ where: { id: supplierId, endedOn: null }, select: { id: true } }),
  ];
  return { item, supplier };
}

type OfferColumns = Omit<Prisma.OfferUncheckedCreateInput, 'id' | 'prices'>;

/** A new offer; one that had ended is taken up again. */
export async function makeOffer(tx: Reader, columns: OfferColumns): Promise<string> {
  const { itemId, supplierId, ...rest } = columns;
  const { id } = await tx.offer.upsert({
    where: { itemId_supplierId: { itemId, supplierId } },
    create: columns,
    update: { ...rest, endedOn: null, version: { increment: 1 } },
    select: { id: true },
  });
  return id;
}

export async function editOffer(tx: Reader, id: string, version: number, columns: Prisma.OfferUpdateManyMutationInput): Promise<void> {
  const { count } = await tx.offer.updateMany({ where: { id, version, endedOn: null }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'offer');
}

export const enterPrice = (tx: Reader, { offerId, fromDay, ...rest }: Prisma.OfferPriceUncheckedCreateInput & { fromDay: Date }) =>
  tx.offerPrice.upsert({ where: { offerId_fromDay: { offerId, fromDay } }, create: { offerId, fromDay, ...rest }, update: rest });

/** As the table of offers has them, with the price of the day. */
export const offerTable = (reader: Reader, today: string) =>
  reader.$queryRaw<TableRow[]>`
    SELECT i.code AS item, s.name AS supplier, o.supplier_code AS "supplier code", o.purchase_unit AS "purchase unit", trim_scale(o.units_per_purchase)::text AS "units per purchase",
           trim_scale(o.pack)::text AS pack, trim_scale(o.minimum_quantity)::text AS "minimum quantity", o.lead_days AS "lead days", o.rank,
           trim_scale(p.price)::text AS price, p.from_day::text AS "price from", o.note
      FROM offer o JOIN item i ON i.id = o.item_id JOIN supplier s ON s.id = o.supplier_id
      LEFT JOIN LATERAL (SELECT price, from_day FROM offer_price WHERE offer_id = o.id AND from_day <= ${today}::date ORDER BY from_day DESC LIMIT 1) p ON true
     WHERE o.ended_on IS NULL ORDER BY i.code, s.name`;
