import { Injectable } from '@nestjs/common';
import { Database, EditedMeanwhile } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';
import type { RuleDto } from './rules.dto.js';

const WITH_PARTS = { parts: { include: { item: true }, orderBy: { item: { code: 'asc' } } } } as const satisfies Prisma.UpkeepRuleInclude;
export type RuleWithParts = Prisma.UpkeepRuleGetPayload<{ include: typeof WITH_PARTS }>;

@Injectable()
export class RulesRepository {
  constructor(private readonly database: Database) {}

  list(skidId: string | undefined): Promise<RuleWithParts[]> {
    return this.database.prisma.upkeepRule.findMany({
      where: { endedOn: null, ...(skidId === undefined ? {} : { OR: [{ skidId }, { skidId: null }] }) },
      include: WITH_PARTS,
      orderBy: [{ positionKind: 'asc' }, { task: 'asc' }, { id: 'asc' }],
    });
  }

  find(id: string): Promise<RuleWithParts | null> {
    return this.database.prisma.upkeepRule.findUnique({ where: { id }, include: WITH_PARTS });
  }

  create({ parts, ...rule }: RuleDto): Promise<RuleWithParts> {
    return this.database.prisma.upkeepRule.create({ data: { ...columns(rule), parts: { create: parts } }, include: WITH_PARTS });
  }

  /** Refuses when somebody else has edited the rule since the caller read it. */
  edit(id: string, version: number, { parts, ...rule }: RuleDto): Promise<RuleWithParts> {
    return this.database.prisma.$transaction(async (tx) => {
      const { count } = await tx.upkeepRule.updateMany({ where: { id, version }, data: { ...columns(rule), version: { increment: 1 } } });
      if (count === 0) throw new EditedMeanwhile('The rule was edited after you read it. Read it again, and make your change to that');
      await tx.upkeepRulePart.deleteMany({ where: { ruleId: id } });
      return tx.upkeepRule.update({ where: { id }, data: { parts: { create: parts } }, include: WITH_PARTS });
    });
  }

  end(id: string, version: number, on: string): Promise<{ count: number }> {
    return this.database.prisma.upkeepRule.updateMany({ where: { id, version }, data: { endedOn: new Date(on), version: { increment: 1 } } });
  }

  /** The skids whose dues the rule can change. */
  async skidsOf(rule: { skidId: string | null; positionKind: string }): Promise<string[]> {
    if (rule.skidId !== null) return [rule.skidId];
    const rows = await this.database.prisma.position.findMany({
      where: { kind: rule.positionKind, endedOn: null },
      select: { skidId: true },
      distinct: ['skidId'],
    });
    return rows.map((row) => row.skidId);
  }
}

function columns(rule: Omit<RuleDto, 'parts'>): Omit<Prisma.UpkeepRuleUncheckedCreateInput, 'parts'> {
  const { task, positionKind, skidId, runHours, starts, cycles, days, base, graceDays, contains, expectedMinutes, note } = rule;
  const limits = { runHours: runHours ?? null, starts: starts ?? null, cycles: cycles ?? null, days: days ?? null };
  return {
    task,
    positionKind,
    skidId: skidId ?? null,
    ...limits,
    base,
    graceDays: graceDays ?? null,
    contains,
    expectedMinutes: Math.round(expectedMinutes),
    note,
  };
}
