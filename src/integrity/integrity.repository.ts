import { Injectable } from '@nestjs/common';
import { isUUID } from 'class-validator';
import { type Caller, Database, InvalidRequest, type PageQuery, type Reader, readCursor, readMomentCursor } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { type FittedModule, isClosedIn } from './core/closed-in-module.js';

export interface TestedSkid {
  readonly id: string;
  readonly clientId: string;
}

/** Tests that the record draws. */
const TREND_TESTS = 200;

export const findTestedSkid = (reader: Reader, id: string): Promise<TestedSkid | null> =>
  reader.skid.findUnique({ where: { id }, select: { id: true, clientId: true } });

export async function timeZoneOf(reader: Reader, skidId: string): Promise<string> {
  const { site } = await reader.skid.findUniqueOrThrow({ where: { id: skidId }, select: { site: { select: { timeZone: true } } } });
  return site.timeZone;
}

export const findSetup = (reader: Reader, skidId: string) => reader.integritySetup.findUnique({ where: { skidId } });

export const isTestedAt = (reader: Reader, skidId: string, at: Date): Promise<boolean> =>
  reader.integrityTest.count({ where: { skidId, at } }).then((count) => count > 0);

export const createTest = (tx: Reader, data: Prisma.IntegrityTestUncheckedCreateInput) => tx.integrityTest.create({ data });
export type TestRow = Awaited<ReturnType<typeof createTest>>;

export interface ModulePlace extends FittedModule {
  readonly name: string;
  /** Modules that are fitted together there; 1 where nothing says */
  readonly modules: number;
}

/** Modules of a skid with what was fitted in them at a moment; without one, what is fitted now. */
export async function modulesOf(reader: Reader, skidId: string, at: Date | null = null): Promise<ModulePlace[]> {
  return reader.$queryRaw<ModulePlace[]>`
    SELECT p.id, p.name, f.part_id AS "partId", f.fitted_at AS "fittedAt", coalesce(pt.set_count, 1) AS modules
      FROM position p LEFT JOIN fitting f ON f.position_id = p.id AND (f.removed_at IS NULL OR f.removed_at > ${at}::timestamptz)
        AND f.fitted_at <= coalesce(${at}::timestamptz, 'infinity') LEFT JOIN part pt ON pt.id = f.part_id
     WHERE p.skid_id = ${skidId}::uuid AND p.kind = 'module' AND p.ended_on IS NULL ORDER BY p.name`;
}

/** Fibres that were closed in the module that is fitted there. */
export async function closedIn(reader: Reader, module: ModulePlace): Promise<number> {
  const either = [{ positionId: module.id }, ...(module.partId === null ? [] : [{ partId: module.partId }])];
  const rows = await reader.fibreRepair.findMany({ where: { OR: either }, select: { positionId: true, partId: true, at: true, fibres: true } });
  return rows.filter((row) => isClosedIn(row, module)).reduce((sum, { fibres }) => sum + fibres, 0);
}

export async function areaOn(reader: Reader, skidId: string, day: string): Promise<number | null> {
  const row = await reader.skidArea.findFirst({ where: { skidId, fromDay: { lte: new Date(day) } }, orderBy: { fromDay: 'desc' }, select: { areaM2: true } });
  return row?.areaM2 ?? null;
}

export const createRepair = (tx: Reader, data: Prisma.FibreRepairUncheckedCreateInput) => tx.fibreRepair.create({ data });
export type RepairRow = Awaited<ReturnType<typeof createRepair>>;

const namesOfPositions = async (reader: Reader, ids: readonly string[]): Promise<Map<string, string>> => {
  const rows = await reader.position.findMany({ where: { id: { in: [...new Set(ids)] } }, select: { id: true, name: true } });
  return new Map(rows.map(({ id, name }) => [id, name]));
};

/** What a job sheet recorded is taken out with it; answers the repairs, whose area is to be given back. */
export async function deleteOfReport(tx: Reader, reportId: string): Promise<RepairRow[]> {
  const repairs = await tx.fibreRepair.findMany({ where: { reportId } });
  await tx.integrityTest.deleteMany({ where: { reportId } });
  await tx.fibreRepair.deleteMany({ where: { reportId } });
  return repairs;
}

/** Rows behind the last one of the page before; several modules may be repaired at one moment. */
function behind(cursor: string | undefined): Prisma.FibreRepairWhereInput {
  const [ms, id] = readCursor(cursor, 2) ?? [];
  if (ms === undefined) return {};
  const at = new Date(ms);
  if (typeof ms !== 'number' || !isUUID(id) || Number.isNaN(at.getTime()))
    throw new InvalidRequest('The cursor is not one that a list of this kind gave', [{ pointer: 'cursor', message: `"${cursor}" is not a cursor` }]);
  return { OR: [{ at: { lt: at } }, { at, id: { lt: String(id) } }] };
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

  /** The latest first. */
  repairs(caller: Caller, skidId: string, { limit, cursor }: PageQuery) {
    return this.database.readFor(caller, async (reader) => {
      if ((await findTestedSkid(reader, skidId)) === null) return null;
      const where = { skidId, ...behind(cursor) };
      const rows = await reader.fibreRepair.findMany({ where, orderBy: [{ at: 'desc' }, { id: 'desc' }], take: limit + 1 });
      const names = await namesOfPositions(
        reader,
        rows.map(({ positionId }) => positionId),
      );
      return { rows, names };
    });
  }

  /** All that the record of a skid shows. The setup is the department's: what the record needs of it is read for everybody. */
  async record(caller: Caller, skidId: string) {
    const found = await this.database.readFor(caller, async (reader) => {
      const skid = await reader.skid.findUnique({
        where: { id: skidId },
        select: { commissionedOn: true, areas: { orderBy: { fromDay: 'desc' } }, site: { select: { timeZone: true } } },
      });
      if (skid === null) return null;
      const tests = await reader.integrityTest.findMany({ where: { skidId }, orderBy: { at: 'desc' }, take: TREND_TESTS });
      const [counted] = await reader.integrityTest.findMany({ where: { skidId, outcome: { not: 'not counted' } }, orderBy: { at: 'desc' }, take: 1 });
      const repairs = await reader.fibreRepair.findMany({ where: { skidId }, orderBy: [{ at: 'desc' }, { id: 'desc' }] });
      const names = await namesOfPositions(
        reader,
        repairs.map(({ positionId }) => positionId),
      );
      const { commissionedOn, areas, site } = skid;
      return { commissionedOn, areas, timeZone: site.timeZone, tests, counted: counted ?? null, repairs, names, modules: await modulesOf(reader, skidId) };
    });
    return found === null ? null : { ...found, setup: await this.setup(skidId) };
  }
}
