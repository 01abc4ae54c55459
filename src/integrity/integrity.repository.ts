import { Injectable } from '@nestjs/common';
import { type Caller, Database, type PageQuery, type Reader, readMomentCursor } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';

export interface TestedSkid {
  readonly id: string;
  readonly clientId: string;
}

export const findTestedSkid = (reader: Reader, id: string): Promise<TestedSkid | null> =>
  reader.skid.findUnique({ where: { id }, select: { id: true, clientId: true } });

export const findSetup = (reader: Reader, skidId: string) => reader.integritySetup.findUnique({ where: { skidId } });

export const createTest = (tx: Reader, data: Prisma.IntegrityTestUncheckedCreateInput) =>
  tx.integrityTest.upsert({ where: { skidId_at: { skidId: data.skidId, at: data.at as Date } }, create: data, update: {} });
export type TestRow = Awaited<ReturnType<typeof createTest>>;

export interface ModulePlace {
  readonly id: string;
  readonly name: string;
  readonly partId: string | null;
  readonly fittedAt: Date | null;
}

/** Modules of a skid with what is fitted in them, and its active area of the day. */
export async function modulesOf(reader: Reader, skidId: string): Promise<ModulePlace[]> {
  return reader.$queryRaw<ModulePlace[]>`
    SELECT p.id, p.name, f.part_id AS "partId", f.fitted_at AS "fittedAt" FROM position p LEFT JOIN fitting f ON f.position_id = p.id AND f.removed_at IS NULL
     WHERE p.skid_id = ${skidId}::uuid AND p.kind = 'module' AND p.ended_on IS NULL ORDER BY p.name`;
}

export async function areaOn(reader: Reader, skidId: string, day: string): Promise<number | null> {
  const row = await reader.skidArea.findFirst({ where: { skidId, fromDay: { lte: new Date(day) } }, orderBy: { fromDay: 'desc' }, select: { areaM2: true } });
  return row?.areaM2 ?? null;
}

export const createRepair = (tx: Reader, data: Prisma.FibreRepairUncheckedCreateInput) => tx.fibreRepair.create({ data });
export type RepairRow = Awaited<ReturnType<typeof createRepair>>;

/** What a job sheet recorded is taken out again with it. */
export async function deleteOfReport(tx: Reader, reportId: string): Promise<void> {
  await tx.integrityTest.deleteMany({ where: { reportId } });
  await tx.fibreRepair.deleteMany({ where: { reportId } });
}

@Injectable()
export class IntegrityRepository {
  constructor(private readonly database: Database) {}

  skid(id: string): Promise<TestedSkid | null> {
    return findTestedSkid(this.database.prisma, id);
  }

  setup(skidId: string) {
    return findSetup(this.database.prisma, skidId);
  }

  async saveSetup(skid: TestedSkid, data: Omit<Prisma.IntegritySetupUncheckedCreateInput, 'skidId' | 'clientId' | 'version'>, seen: number | null) {
    if (seen === null) return this.database.prisma.integritySetup.create({ data: { ...data, skidId: skid.id, clientId: skid.clientId } });
    const [row] = await this.database.prisma.integritySetup.updateManyAndReturn({
      where: { skidId: skid.id, version: seen },
      data: { ...data, version: { increment: 1 } },
    });
    return row ?? null;
  }

  /** The latest first. */
  tests(caller: Caller, skidId: string, { limit, cursor }: PageQuery): Promise<TestRow[] | null> {
    const before = readMomentCursor(cursor);
    return this.database.readFor(caller, async (reader) => {
      if ((await findTestedSkid(reader, skidId)) === null) return null;
      const where = before === undefined ? { skidId } : { skidId, at: { lt: before } };
      return reader.integrityTest.findMany({ where, orderBy: { at: 'desc' }, take: limit + 1 });
    });
  }

  /** All that the record of a skid shows, in five queries. The setup is the department's: its number of fibres is read for everybody. */
  async record(caller: Caller, skidId: string) {
    const found = await this.database.readFor(caller, async (reader) => {
      if ((await findTestedSkid(reader, skidId)) === null) return null;
      const [last] = await reader.integrityTest.findMany({ where: { skidId }, orderBy: { at: 'desc' }, take: 1 });
      const [counted] = await reader.integrityTest.findMany({ where: { skidId, outcome: { not: 'not counted' } }, orderBy: { at: 'desc' }, take: 1 });
      const repairs = await reader.fibreRepair.findMany({ where: { skidId }, orderBy: { at: 'desc' } });
      return { last: last ?? null, counted: counted ?? null, repairs, modules: await modulesOf(reader, skidId) };
    });
    return found === null ? null : { ...found, fibresPerModule: (await this.setup(skidId))?.fibresPerModule ?? null };
  }
}
