import type { Reader } from '../app/index.js';
import type { Prisma, RuleOverride } from '../generated/prisma/client.js';

export function overridesOf(reader: Reader, skidId: string): Promise<RuleOverride[]> {
  return reader.ruleOverride.findMany({ where: { skidId }, orderBy: [{ endedAt: { sort: 'desc', nulls: 'first' } }, { at: 'desc' }, { id: 'asc' }] });
}

/** An override of the same rule at the same place, which the new one would contradict. */
export function sameOverride(
  reader: Reader,
  about: { skidId: string; positionId: string | null; positionKind: string; task: string },
): Promise<RuleOverride | null> {
  return reader.ruleOverride.findFirst({ where: { ...about, endedAt: null } });
}

export function createOverride(tx: Reader, data: Prisma.RuleOverrideUncheckedCreateInput): Promise<RuleOverride> {
  return tx.ruleOverride.create({ data });
}

/** Null: there is none that could end. */
export async function endOverride(tx: Reader, skidId: string, id: string, endedAt: Date, endedBy: string): Promise<boolean> {
  return (await tx.ruleOverride.updateMany({ where: { id, skidId, endedAt: null }, data: { endedAt, endedBy } })).count === 1;
}

export function placesOf(reader: Reader, skidId: string) {
  return reader.position.findMany({ where: { skidId, endedOn: null }, select: { id: true, kind: true, name: true }, orderBy: { name: 'asc' } });
}

export function ruledSkid(reader: Reader, id: string) {
  return reader.skid.findUnique({
    where: { id },
    select: { id: true, kind: true, clientId: true, ruleSetVersionId: true, ruleSetVersion: { include: { ruleSet: true } } },
  });
}
