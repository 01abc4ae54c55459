import { containing, NotFound, type Reader, readCursor } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';
import type { OrdersQuery } from './orders.dto.js';

const NAMES = { supplier: { select: { name: true, email: true, customerNumber: true, leadDays: true } } } as const;
const LINE = {
  item: { select: { code: true, name: true, unit: true } },
  received: { where: { receipt: { takenBackAt: null } }, select: { outcome: true, quantity: true } },
} as const satisfies Prisma.PurchaseOrderLineInclude;
const RETURNS = { include: { lines: { orderBy: { id: 'asc' } } }, orderBy: { at: 'asc' } } as const;

const WHOLE = {
  ...NAMES,
  lines: { include: LINE, orderBy: { no: 'asc' } },
  receipts: { include: { lines: { orderBy: { id: 'asc' } } }, orderBy: { at: 'asc' } },
  returns: RETURNS,
  changes: { orderBy: { id: 'asc' } },
} as const satisfies Prisma.PurchaseOrderInclude;
const IN_LIST = { ...NAMES, lines: { include: LINE, orderBy: { no: 'asc' } }, returns: RETURNS } as const satisfies Prisma.PurchaseOrderInclude;

export type WholeOrder = Prisma.PurchaseOrderGetPayload<{ include: typeof WHOLE }>;
export type OrderInList = Prisma.PurchaseOrderGetPayload<{ include: typeof IN_LIST }>;

export async function wholeOrder(reader: Reader, id: string): Promise<WholeOrder> {
  const order = await reader.purchaseOrder.findUnique({ where: { id }, include: WHOLE });
  if (order === null) throw new NotFound('purchase order', id);
  return order;
}

/** The order, which nobody else changes until the end of the transaction. */
export async function holdOrder(tx: Reader, id: string): Promise<WholeOrder> {
  await tx.$queryRaw`SELECT 1 FROM purchase_order WHERE id = ${id}::uuid FOR UPDATE`;
  return wholeOrder(tx, id);
}

/** The latest first. */
export function ordersPage(reader: Reader, { state, supplierId, itemId, find, cursor, limit }: OrdersQuery): Promise<OrderInList[]> {
  const [before] = readCursor(cursor, 1) ?? [];
  const words = containing(find);
  const where: Prisma.PurchaseOrderWhereInput[] = [];
  if (state !== undefined) where.push({ state });
  if (supplierId !== undefined) where.push({ supplierId });
  if (itemId !== undefined) where.push({ lines: { some: { itemId } } });
  if (before !== undefined) where.push({ no: { lt: wholeNumber(before) } });
  if (words !== undefined) {
    const item = { OR: [{ code: words }, { name: words }] };
    const no = /^\d{1,9}$/.test(find ?? '') ? [{ no: Number(find) }] : [];
    where.push({ OR: [...no, { supplier: { name: words } }, { note: words }, { lines: { some: { item } } }] });
  }
  return reader.purchaseOrder.findMany({ where: { AND: where }, orderBy: { no: 'desc' }, take: limit + 1, include: IN_LIST });
}

/** A cursor that somebody made up leads to an empty list. */
const wholeNumber = (value: string | number) => (/^\d{1,9}$/.test(String(value)) ? Number(value) : 0);

/** All that were sent and have not ended. */
export const sentOrders = (reader: Reader): Promise<OrderInList[]> =>
  reader.purchaseOrder.findMany({ where: { state: 'sent' }, orderBy: { no: 'asc' }, include: IN_LIST });

export const ordersOfIds = (reader: Reader, ids: readonly string[]): Promise<OrderInList[]> =>
  reader.purchaseOrder.findMany({ where: { id: { in: [...ids] } }, orderBy: { no: 'asc' }, include: IN_LIST });

export async function placeNames(reader: Reader, ids: readonly string[]): Promise<Map<string, string>> {
  const rows = await reader.place.findMany({ where: { id: { in: [...new Set(ids)] } }, select: { id: true, name: true } });
  return new Map(rows.map(({ id, name }) => [id, name]));
}

export const openPlace = (reader: Reader, id: string) => reader.place.findFirst({ where: { id, endedOn: null }, select: { id: true } });

export const isItem = (reader: Reader, id: string): Promise<boolean> => reader.item.count({ where: { id } }).then((count) => count === 1);
