import { type Reader, takeEdited } from '../app/index.js';
import { Prisma } from '../generated/prisma/client.js';

const HEADS = {
  include: { _count: { select: { rules: { where: { endedOn: null } }, skids: true } } },
  orderBy: { no: 'desc' },
} as const satisfies Prisma.RuleSet$versionsArgs;
const WITH_VERSIONS = { versions: HEADS } as const satisfies Prisma.RuleSetInclude;
export type RuleSetWithVersions = Prisma.RuleSetGetPayload<{ include: typeof WITH_VERSIONS }>;
const WITH_SET = { ruleSet: true } as const satisfies Prisma.RuleSetVersionInclude;
export type VersionWithSet = Prisma.RuleSetVersionGetPayload<{ include: typeof WITH_SET }>;

export function listRuleSets(reader: Reader, ended: boolean): Promise<RuleSetWithVersions[]> {
  return reader.ruleSet.findMany({ where: { endedOn: ended ? { not: null } : null }, include: WITH_VERSIONS, orderBy: { name: 'asc' } });
}

export function findRuleSet(reader: Reader, by: { id: string } | { name: string }): Promise<RuleSetWithVersions | null> {
  return reader.ruleSet.findUnique({ where: by, include: WITH_VERSIONS });
}

/** With its first version, a draft unless it is published at once. */
export function createRuleSet(
  tx: Reader,
  { name, note }: { name: string; note: string },
  first: { createdBy: string; publishedAt: Date | null; publishedBy: string | null },
): Promise<RuleSetWithVersions> {
  return tx.ruleSet.create({ data: { name, note, versions: { create: { no: 1, ...first } } }, include: WITH_VERSIONS });
}

export async function editRuleSet(
  tx: Reader,
  id: string,
  version: number,
  columns: { name?: string; note?: string; endedOn?: Date },
): Promise<RuleSetWithVersions> {
  const { count } = await tx.ruleSet.updateMany({ where: { id, version, endedOn: null }, data: { ...columns, version: { increment: 1 } } });
  takeEdited(count === 1 ? [id] : [], 'rule set');
  return tx.ruleSet.findUniqueOrThrow({ where: { id }, include: WITH_VERSIONS });
}

/** One draft of a set at a time: whoever makes or publishes one waits for the other. */
export async function lockRuleSet(tx: Reader, id: string): Promise<boolean> {
  const rows = await tx.$queryRaw<unknown[]>`SELECT id FROM rule_set WHERE id = ${id}::uuid FOR UPDATE`;
  return rows.length === 1;
}

export function createVersion(tx: Reader, ruleSetId: string, no: number, about: { note: string; createdBy: string }): Promise<VersionWithSet> {
  return tx.ruleSetVersion.create({ data: { ruleSetId, no, ...about }, include: WITH_SET });
}

export function findVersion(reader: Reader, id: string): Promise<VersionWithSet | null> {
  return reader.ruleSetVersion.findUnique({ where: { id }, include: WITH_SET });
}

export function publishVersion(tx: Reader, id: string, about: { publishedAt: Date; publishedBy: string; note?: string }): Promise<VersionWithSet> {
  return tx.ruleSetVersion.update({ where: { id }, data: about, include: WITH_SET });
}

/** A draft that nobody has followed, with its rules. */
export async function discardVersion(tx: Reader, id: string): Promise<void> {
  await tx.upkeepRule.deleteMany({ where: { ruleSetVersionId: id } });
  await tx.ruleSetVersion.delete({ where: { id } });
}

/** The version of the set that comes before a number. */
export function versionBefore(reader: Reader, ruleSetId: string, no: number): Promise<{ id: string } | null> {
  return reader.ruleSetVersion.findFirst({ where: { ruleSetId, no: { lt: no } }, orderBy: { no: 'desc' }, select: { id: true } });
}

/** The published version that skids should follow. */
export function newestVersion(reader: Reader, ruleSetId: string): Promise<{ id: string; no: number } | null> {
  return reader.ruleSetVersion.findFirst({ where: { ruleSetId, publishedAt: { not: null } }, orderBy: { no: 'desc' }, select: { id: true, no: true } });
}

export function followersOf(reader: Reader, versionId: string) {
  return reader.skid.findMany({
    where: { ruleSetVersionId: versionId, endedOn: null },
    select: { id: true, name: true, site: { select: { name: true } }, client: { select: { name: true } } },
    orderBy: [{ client: { name: 'asc' } }, { site: { name: 'asc' } }, { name: 'asc' }],
  });
}

export function skidsToMove(reader: Reader, ids: readonly string[]) {
  return reader.skid.findMany({
    where: { id: { in: [...ids] }, endedOn: null },
    select: { id: true, no: true, clientId: true, name: true, ruleSetVersionId: true, ruleSetVersion: { include: { ruleSet: true } } },
    orderBy: { name: 'asc' },
  });
}

export async function follow(
  tx: Reader,
  skids: readonly { id: string; ruleSetVersionId: string | null }[],
  toVersionId: string | null,
  by: string,
): Promise<void> {
  await tx.ruleSetChange.createMany({ data: skids.map(({ id, ruleSetVersionId }) => ({ skidId: id, fromVersionId: ruleSetVersionId, toVersionId, by })) });
  await tx.skid.updateMany({ where: { id: { in: skids.map(({ id }) => id) } }, data: { ruleSetVersionId: toVersionId, version: { increment: 1 } } });
}
