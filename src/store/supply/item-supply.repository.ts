import { NotFound, type Reader, takeEdited } from '../../app/index.js';
import type { Prisma } from '../../generated/prisma/client.js';

const NAMES = { select: { id: true, code: true, name: true } } as const;
const WITH_SUPPLY = {
  supply: { include: { supersededBy: NAMES } },
  alternatives: { include: { alternative: NAMES }, orderBy: { alternative: { code: 'asc' } } },
  hazards: { orderBy: { fromPercent: 'asc' } },
} as const satisfies Prisma.ItemInclude;
export type ItemWithSupply = Prisma.ItemGetPayload<{ include: typeof WITH_SUPPLY }>;

export async function itemWithSupply(reader: Reader, itemId: string): Promise<ItemWithSupply> {
  const item = await reader.item.findUnique({ where: { id: itemId }, include: WITH_SUPPLY });
  if (item === null) throw new NotFound('item', itemId);
  return item;
}

/** Of these ids, those of items. */
export async function knownItems(reader: Reader, ids: readonly string[]): Promise<Set<string>> {
  const rows = await reader.item.findMany({ where: { id: { in: [...ids] } }, select: { id: true } });
  return new Set(rows.map(({ id }) => id));
}

/** What takes an item's place, and what takes that one's, to the end. */
export const successors = (reader: Reader, itemId: string) =>
  reader.$queryRaw<{ id: string }[]>`
    WITH RECURSIVE chain AS (
      SELECT superseded_by_id AS id FROM item_supply WHERE item_id = ${itemId}::uuid AND superseded_by_id IS NOT NULL
      UNION SELECT s.superseded_by_id FROM chain c JOIN item_supply s ON s.item_id = c.id WHERE s.superseded_by_id IS NOT NULL)
    SELECT id FROM chain`;

export interface SupplyChange {
  readonly columns: Omit<Prisma.ItemSupplyUncheckedCreateInput, 'itemId' | 'version'>;
  readonly alternatives: readonly { readonly alternativeId: string; readonly note: string }[];
  readonly hazards: readonly Omit<Prisma.ItemHazardUncheckedCreateInput, 'id' | 'itemId'>[];
}

/** Everything anew, where nobody changed it since `version`; 0: it is entered for the first time. */
export async function replaceSupply(tx: Reader, itemId: string, version: number, { columns, alternatives, hazards }: SupplyChange): Promise<void> {
  await tx.$queryRaw`SELECT 1 FROM item WHERE id = ${itemId}::uuid FOR UPDATE`;
  const { count } =
    version === 0
      ? await tx.itemSupply.createMany({ data: { itemId, ...columns }, skipDuplicates: true })
      : await tx.itemSupply.updateMany({ where: { itemId, version }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [itemId] : [], 'supply data');
  await tx.itemAlternative.deleteMany({ where: { itemId } });
  await tx.itemAlternative.createMany({ data: alternatives.map((alternative) => ({ itemId, ...alternative })) });
  await tx.itemHazard.deleteMany({ where: { itemId } });
  await tx.itemHazard.createMany({ data: hazards.map((hazard) => ({ itemId, ...hazard })) });
}
