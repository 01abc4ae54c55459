import { Injectable } from '@nestjs/common';
import { isUUID } from 'class-validator';
import { type Caller, Database, InvalidRequest, type PageQuery, type Reader, readCursor } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import type { PressureBasis } from './core/figures-fed.js';

const WITH_PLACE = { position: { select: { name: true } } } as const satisfies Prisma.CalibrationInclude;
export type CalibrationRow = Prisma.CalibrationGetPayload<{ include: typeof WITH_PLACE }>;
export type DoubtfulRow = Prisma.DoubtfulSpanGetPayload<object>;

/** Where an instrument is. */
export interface InstrumentPlace {
  readonly id: string;
  readonly name: string;
  readonly skidId: string;
  readonly clientId: string;
  readonly signal: string | null;
  readonly timeZone: string;
}

export async function findPlace(reader: Reader, positionId: string): Promise<InstrumentPlace | null> {
  const row = await reader.position.findUnique({ where: { id: positionId }, include: { skid: { include: { site: { select: { timeZone: true } } } } } });
  if (row === null) return null;
  const { id, name, skidId, clientId, signal, skid } = row;
  return { id, name, skidId, clientId, signal, timeZone: skid.site.timeZone };
}

export const isCalibratedAt = (reader: Reader, positionId: string, at: Date): Promise<boolean> =>
  reader.calibration.count({ where: { positionId, at } }).then((count) => count > 0);

export const createCalibration = (tx: Reader, data: Prisma.CalibrationUncheckedCreateInput): Promise<CalibrationRow> =>
  tx.calibration.create({ data, include: WITH_PLACE });

export const calibrationsOfReport = (tx: Reader, reportId: string) => tx.calibration.findMany({ where: { reportId } });

export async function deleteCalibrations(tx: Reader, ids: readonly string[]): Promise<void> {
  await tx.doubtfulSpan.deleteMany({ where: { calibrationId: { in: [...ids] } } });
  await tx.calibration.deleteMany({ where: { id: { in: [...ids] } } });
}

/** All calibrations of an instrument for a signal and the moments at which one was fitted, kept from other changes until the end of the transaction. */
export async function historyOfInstrument(tx: Reader, positionId: string, signal: string) {
  await tx.$queryRaw`SELECT 1 FROM position WHERE id = ${positionId}::uuid FOR UPDATE`;
  const checks = await tx.calibration.findMany({ where: { positionId, signal } });
  const fittings = await tx.fitting.findMany({ where: { positionId }, select: { fittedAt: true } });
  return { checks, fittedAt: fittings.map(({ fittedAt }) => fittedAt) };
}

/** Puts what is doubtful now in the place of what was. */
export async function replaceDoubts(tx: Reader, calibrationIds: readonly string[], doubts: readonly Prisma.DoubtfulSpanCreateManyInput[]): Promise<void> {
  await tx.doubtfulSpan.deleteMany({ where: { calibrationId: { in: [...calibrationIds] } } });
  await tx.doubtfulSpan.createMany({ data: [...doubts] });
}

export const doubtsOf = (reader: Reader, calibrationIds: readonly string[]): Promise<DoubtfulRow[]> =>
  reader.doubtfulSpan.findMany({ where: { calibrationId: { in: [...calibrationIds] } } });

/** Rows behind the last one of the page before. Two instruments of a skid may be compared at the same moment. */
function behind(cursor: string | undefined): Prisma.CalibrationWhereInput {
  const [ms, id] = readCursor(cursor, 2) ?? [];
  if (ms === undefined) return {};
  const at = new Date(ms);
  if (typeof ms !== 'number' || !isUUID(id) || Number.isNaN(at.getTime()))
    throw new InvalidRequest('The cursor is not one that a list of this kind gave', [{ pointer: 'cursor', message: `"${cursor}" is not a cursor` }]);
  return { OR: [{ at: { lt: at } }, { at, id: { lt: String(id) } }] };
}

export type CalibrationPage = { readonly rows: CalibrationRow[]; readonly doubts: DoubtfulRow[] };
export interface CalibrationPlace extends PressureBasis {
  readonly skidNo: number;
  readonly timeZone: string;
}

@Injectable()
export class CalibrationsRepository {
  constructor(private readonly database: Database) {}

  /** The latest first; undefined where the caller sees no such place. */
  list(caller: Caller, of: { positionId: string } | { skidId: string }, { limit, cursor }: PageQuery): Promise<CalibrationPage | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const known = 'skidId' in of ? await reader.skid.count({ where: { id: of.skidId } }) : await reader.position.count({ where: { id: of.positionId } });
      if (known === 0) return undefined;
      const rows = await reader.calibration.findMany({
        where: { ...of, ...behind(cursor) },
        orderBy: [{ at: 'desc' }, { id: 'desc' }],
        take: limit + 1,
        include: WITH_PLACE,
      });
      return {
        rows,
        doubts: await doubtsOf(
          reader,
          rows.map(({ id }) => id),
        ),
      };
    });
  }

  find(caller: Caller, id: string): Promise<{ row: CalibrationRow; doubt: DoubtfulRow | null; place: CalibrationPlace } | undefined> {
    return this.database.readFor(caller, async (reader) => {
      const row = await reader.calibration.findUnique({ where: { id }, include: WITH_PLACE });
      if (row === null) return undefined;
      const [doubt = null] = await doubtsOf(reader, [id]);
      const { no, flowScheme, tmpFrom, site } = await reader.skid.findUniqueOrThrow({
        where: { id: row.skidId },
        select: { no: true, flowScheme: true, tmpFrom: true, site: { select: { timeZone: true } } },
      });
      const basis = { scheme: flowScheme as PressureBasis['scheme'], tmpFrom: tmpFrom as PressureBasis['tmpFrom'] };
      return { row, doubt, place: { ...basis, skidNo: no, timeZone: site.timeZone } };
    });
  }
}
