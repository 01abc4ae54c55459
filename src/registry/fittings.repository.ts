import { containing, type PageQuery, type Reader, readIdCursor, readMomentCursor } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { PartsQuery } from './fittings.dto.js';

const WITH_PART = { part: { include: { item: true } } } as const satisfies Prisma.FittingInclude;
export type FittingRow = Prisma.FittingGetPayload<{ include: typeof WITH_PART }>;

const WITH_PLACE = {
  item: true,
  fittings: { where: { removedAt: null }, include: { position: { select: { name: true, skid: { select: { id: true, name: true } } } } } },
} as const satisfies Prisma.PartInclude;
export type PartRow = Prisma.PartGetPayload<{ include: typeof WITH_PLACE }>;

/** The position, kept from other fittings until the end of the transaction. */
export async function lockPosition(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM position WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.position.findUnique({ where: { id }, include: { fittings: true, skid: { select: { endedOn: true } } } });
}

/** The part with everywhere that it was, kept from other fittings until the end of the transaction. */
export async function lockPart(tx: Reader, id: string) {
  await tx.$queryRaw`SELECT 1 FROM part WHERE id = ${id}::uuid FOR UPDATE`;
  return tx.part.findUnique({ where: { id }, include: { fittings: { include: { position: { select: { name: true } } } } } });
}

export const isItem = (tx: Reader, id: string): Promise<boolean> => tx.item.count({ where: { id } }).then((count) => count === 1);

/** A serial number that is known already is the same part again. */
export async function partOfItem(tx: Reader, part: { itemId: string; serialNumber: string | null; setCount: number; lot: string | null }): Promise<string> {
  const { itemId, serialNumber } = part;
  if (serialNumber === null) return (await tx.part.create({ data: part, select: { id: true } })).id;
  return (await tx.part.upsert({ where: { itemId_serialNumber: { itemId, serialNumber } }, create: part, update: {}, select: { id: true } })).id;
}

export const createFitting = (tx: Reader, fitting: Prisma.FittingUncheckedCreateInput): Promise<FittingRow> =>
  tx.fitting.create({ data: fitting, include: WITH_PART });

export const findFitting = (reader: Reader, id: string) =>
  reader.fitting.findUnique({ where: { id }, include: { ...WITH_PART, position: { select: { skidId: true } } } });

/** Null: somebody else has just removed it. */
export async function closeFitting(tx: Reader, id: string, removal: { removedAt: Date; removedBy: string; removalReason: string }): Promise<FittingRow | null> {
  const { count } = await tx.fitting.updateMany({ where: { id, removedAt: null }, data: removal });
  return count === 0 ? null : tx.fitting.findUnique({ where: { id }, include: WITH_PART });
}

/** What was fitted in the position, the latest first. */
export function fittingsOf(reader: Reader, positionId: string, { limit, cursor }: PageQuery): Promise<FittingRow[]> {
  const before = readMomentCursor(cursor);
  // Fittings of a position do not overlap: no two begin at the same moment.
  const where = before === undefined ? { positionId } : { positionId, fittedAt: { lt: before } };
  return reader.fitting.findMany({ where, orderBy: { fittedAt: 'desc' }, take: limit + 1, include: WITH_PART });
}

/** Parts, the latest known first: their ids grow with time. */
export function listParts(reader: Reader, { limit, cursor, itemId, find }: PartsQuery): Promise<PartRow[]> {
  const before = readIdCursor(cursor);
  const words = containing(find);
  const found = words === undefined ? {} : { OR: [{ serialNumber: words }, { lot: words }, { item: { code: words } }, { item: { name: words } }] };
  const where = { AND: [found, itemId === undefined ? {} : { itemId }, before === undefined ? {} : { id: { lt: before } }] };
  return reader.part.findMany({ where, orderBy: { id: 'desc' }, take: limit + 1, include: WITH_PLACE });
}
