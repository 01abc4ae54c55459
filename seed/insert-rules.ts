import type { PrismaClient } from '../src/generated/prisma/client.js';
import { idOf } from './insert-registry.js';
import type { ScenarioRule } from './types.js';

/** The rules of the demo as one set that every skid follows, with a task sheet for each task. */
export async function insertRules(prisma: PrismaClient, rules: readonly ScenarioRule[], items: ReadonlyMap<string, string>): Promise<void> {
  const sheetIds = new Map<string, string>();
  for (const { task, expectedMinutes, parts } of rules) {
    const created = parts.map(({ itemCode, quantity }) => ({ itemId: idOf(items, itemCode), quantity }));
    const version = { no: 1, createdBy: 'demo', usualMinutes: expectedMinutes, parts: { create: created } };
    sheetIds.set(task, (await prisma.taskSheet.create({ data: { task, kind: 'service', versions: { create: version } } })).id);
  }
  const set = await prisma.ruleSet.create({
    data: { name: 'UF skid, demo', versions: { create: { no: 1, createdBy: 'demo', publishedAt: new Date(), publishedBy: 'demo' } } },
    include: { versions: true },
  });
  const ruleSetVersionId = set.versions[0]?.id ?? null;
  await prisma.upkeepRule.createMany({
    data: rules.map(({ parts: _, expectedMinutes: __, ...rule }) => ({ ...rule, ruleSetVersionId, taskSheetId: idOf(sheetIds, rule.task) })),
  });
  await prisma.skid.updateMany({ data: { ruleSetVersionId } });
}
