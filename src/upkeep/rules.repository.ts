import { type Reader, takeEdited } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { RuleContentDto } from './rules.dto.js';

const WITH_SHEET = {
  taskSheet: { include: { versions: { orderBy: { no: 'desc' }, take: 1, select: { usualMinutes: true, crew: true } } } },
} as const satisfies Prisma.UpkeepRuleInclude;
const IN_ORDER = [{ positionKind: 'asc' }, { task: 'asc' }, { id: 'asc' }] as const satisfies Prisma.UpkeepRuleOrderByWithRelationInput[];
export type RuleWithSheet = Prisma.UpkeepRuleGetPayload<{ include: typeof WITH_SHEET }>;

/** What a rule belongs to. */
export interface RuleHome {
  readonly ruleSetVersionId: string | null;
  readonly skidId: string | null;
}

export function rulesOf(reader: Reader, home: Partial<RuleHome>): Promise<RuleWithSheet[]> {
  return reader.upkeepRule.findMany({ where: { ...home, endedOn: null }, include: WITH_SHEET, orderBy: [...IN_ORDER] });
}

export function findRule(reader: Reader, id: string): Promise<RuleWithSheet | null> {
  return reader.upkeepRule.findUnique({ where: { id }, include: WITH_SHEET });
}

export function createRule(reader: Reader, home: RuleHome, rule: RuleContentDto): Promise<RuleWithSheet> {
  return reader.upkeepRule.create({ data: { ...home, ...columns(rule) }, include: WITH_SHEET });
}

/** Refuses when somebody else has edited the rule since the caller read it. */
export async function editRule(reader: Reader, id: string, version: number, rule: RuleContentDto): Promise<RuleWithSheet> {
  return changed(reader, id, version, columns(rule));
}

export function endRule(reader: Reader, id: string, version: number, on: string): Promise<RuleWithSheet> {
  return changed(reader, id, version, { endedOn: new Date(on) });
}

/** Of a draft, which nobody has followed yet. */
export async function removeRule(reader: Reader, id: string, version: number): Promise<void> {
  const { count } = await reader.upkeepRule.deleteMany({ where: { id, version } });
  takeEdited(count === 1 ? [id] : [], 'rule');
}

/** Copies the rules of one version into another: what a draft begins with. */
export async function copyRules(reader: Reader, fromVersionId: string, toVersionId: string): Promise<void> {
  const rules = await reader.upkeepRule.findMany({ where: { ruleSetVersionId: fromVersionId, endedOn: null } });
  await reader.upkeepRule.createMany({ data: rules.map(({ id: _, version: __, ...rule }) => ({ ...rule, ruleSetVersionId: toVersionId })) });
}

/** A sheet that new rules may point to. */
export async function isOpenSheet(reader: Reader, id: string): Promise<boolean> {
  return (await reader.taskSheet.count({ where: { id, endedOn: null } })) === 1;
}

export function openSkid(reader: Reader, id: string) {
  return reader.skid.findFirst({ where: { id, endedOn: null }, select: { id: true, no: true, clientId: true, name: true, ruleSetVersionId: true } });
}

async function changed(reader: Reader, id: string, version: number, data: Prisma.UpkeepRuleUncheckedUpdateManyInput): Promise<RuleWithSheet> {
  const { count } = await reader.upkeepRule.updateMany({ where: { id, version }, data: { ...data, version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'rule');
  return reader.upkeepRule.findUniqueOrThrow({ where: { id }, include: WITH_SHEET });
}

function columns(rule: RuleContentDto) {
  const { task, positionKind, base, whileLaidUp, contains, taskSheetId, note } = rule;
  const { runHours = null, starts = null, cycles = null, days = null, graceDays = null, outlookLimit = null } = rule;
  const { conditionFigure = null, conditionAbove = null, conditionBelow = null } = rule;
  const limits = { runHours, starts, cycles, days, outlookLimit, conditionFigure, conditionAbove, conditionBelow };
  return { task, positionKind, ...limits, base, graceDays, whileLaidUp, contains, taskSheetId, note };
}
