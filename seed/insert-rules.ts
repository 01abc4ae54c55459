import type { PrismaClient } from '../src/generated/prisma/client.js';
import { insertLibrary } from '../src/upkeep/library/insert-library.repository.js';
import { EVERY_VISIT } from './data/rules.js';
import { idOf } from './insert-registry.js';
import type { Scenario } from './types.js';

/** The starting library with the parts of the demo; every skid follows it. */
export async function insertRules(prisma: PrismaClient, { rules }: Scenario, items: ReadonlyMap<string, string>): Promise<void> {
  const partsOf = new Map(
    rules.map(({ task, parts }) => [
      task,
      parts.map(({ itemCode, quantity }) => ({ itemId: idOf(items, itemCode), quantity: `${quantity}`, everyVisit: EVERY_VISIT.has(itemCode) })),
    ]),
  );
  const { ruleSetVersionId } = await prisma.$transaction((tx) => insertLibrary(tx, 'Demo', new Date(), (task) => partsOf.get(task) ?? []), { timeout: 60_000 });
  await prisma.skid.updateMany({ data: { ruleSetVersionId } });
}
