import { Injectable } from '@nestjs/common';
import { Database, EditedMeanwhile } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';
import type { RuleDto } from './rules.dto.js';

const WITH_SHEET = {
  taskSheet: { include: { versions: { orderBy: { no: 'desc' }, take: 1 } } },
} as const satisfies Prisma.UpkeepRuleInclude;
export type RuleWithSheet = Prisma.UpkeepRuleGetPayload<{ include: typeof WITH_SHEET }>;

@Injectable()
export class RulesRepository {
  constructor(private readonly database: Database) {}

  list(skidId: string | undefined): Promise<RuleWithSheet[]> {
    return this.database.prisma.upkeepRule.findMany({
      where: { endedOn: null, ...(skidId === undefined ? {} : { OR: [{ skidId }, { skidId: null }] }) },
      include: WITH_SHEET,
      orderBy: [{ positionKind: 'asc' }, { task: 'asc' }, { id: 'asc' }],
    });
  }

  find(id: string): Promise<RuleWithSheet | null> {
    return this.database.prisma.upkeepRule.findUnique({ where: { id }, include: WITH_SHEET });
  }

  create(rule: RuleDto): Promise<RuleWithSheet> {
    return this.database.prisma.upkeepRule.create({ data: columns(rule), include: WITH_SHEET });
  }

  /** Refuses when somebody else has edited the rule since the caller read it. */
  edit(id: string, version: number, rule: RuleDto): Promise<RuleWithSheet> {
    return this.database.prisma.$transaction(async (tx) => {
      const { count } = await tx.upkeepRule.updateMany({ where: { id, version }, data: { ...columns(rule), version: { increment: 1 } } });
      if (count === 0) throw new EditedMeanwhile('The rule was edited after you read it. Read it again, and make your change to that');
      return tx.upkeepRule.findUniqueOrThrow({ where: { id }, include: WITH_SHEET });
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

function columns(rule: RuleDto): Prisma.UpkeepRuleUncheckedCreateInput {
  const { task, positionKind, skidId, runHours, starts, cycles, days, base, graceDays, contains, taskSheetId, note } = rule;
  const limits = { runHours: runHours ?? null, starts: starts ?? null, cycles: cycles ?? null, days: days ?? null };
  return {
    task,
    positionKind,
    skidId: skidId ?? null,
    ...limits,
    base,
    graceDays: graceDays ?? null,
    contains,
    taskSheetId,
    note,
  };
}
