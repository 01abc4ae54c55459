import { randomUUID } from 'node:crypto';
import type { PrismaClient } from '../../src/generated/prisma/client.js';

export interface RuleToMake {
  readonly task: string;
  readonly positionKind: string;
  readonly minutes?: number;
  readonly parts?: readonly { readonly itemId: string; readonly quantity: number }[];
  readonly runHours?: number;
  readonly days?: number;
  readonly graceDays?: number;
}

/** A task sheet with its first version. */
export async function makeSheet(prisma: PrismaClient, { task, minutes = 45, parts = [] }: Pick<RuleToMake, 'task' | 'minutes' | 'parts'>): Promise<string> {
  const version = { no: 1, createdBy: 'test', usualMinutes: minutes, parts: { create: [...parts] } };
  return (await prisma.taskSheet.create({ data: { task, kind: 'service', versions: { create: version } } })).id;
}

/** A published rule set with these rules and a task sheet each, which the skids follow from now on. */
export async function makeRuleSet(prisma: PrismaClient, skidIds: readonly string[], rules: readonly RuleToMake[]): Promise<string> {
  const { id: ruleSetVersionId } = await prisma.ruleSetVersion.create({
    data: { no: 1, createdBy: 'test', publishedAt: new Date(), publishedBy: 'test', ruleSet: { create: { name: `Rules ${randomUUID()}` } } },
  });
  for (const { minutes = 45, parts = [], ...rule } of rules) {
    await prisma.upkeepRule.create({ data: { ...rule, ruleSetVersionId, taskSheetId: await makeSheet(prisma, { task: rule.task, minutes, parts }) } });
  }
  await prisma.skid.updateMany({ where: { id: { in: [...skidIds] } }, data: { ruleSetVersionId } });
  return ruleSetVersionId;
}
