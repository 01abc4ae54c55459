import type { Reader } from '../app/index.js';
import type { Prisma } from '../generated/prisma/client.js';
import { dateOf } from './days.js';
import { NamedRecords } from './named-records.repository.js';

const WITH_PLACE = {
  client: { select: { name: true } },
  site: { select: { name: true, timeZone: true } },
  areas: { orderBy: { fromDay: 'asc' } },
  serves: { select: { skidId: true } },
  servedBy: { select: { sharedId: true } },
} as const satisfies Prisma.SkidInclude;
export type SkidRow = Prisma.SkidGetPayload<{ include: typeof WITH_PLACE }>;

export const skidRecords = new NamedRecords<SkidRow>({
  what: 'skid',
  table: (reader) => reader.skid,
  orderBy: 'name',
  searched: ['name', 'serialNumber', 'water', 'note'],
  include: WITH_PLACE,
});

/** Of these, the filtration units that stand at the site. */
export const countSkidsAt = (reader: Reader, siteId: string, ids: readonly string[]): Promise<number> =>
  reader.skid.count({ where: { id: { in: [...ids] }, siteId, kind: 'skid', endedOn: null } });

/** The skid, when it has not ended. */
export const openSkid = (reader: Reader, id: string) =>
  reader.skid.findFirst({ where: { id, endedOn: null }, select: { id: true, clientId: true, siteId: true } });

/** What shared equipment serves takes the place of what it served. */
export async function setServed(tx: Reader, shared: { id: string; clientId: string }, skidIds: readonly string[]): Promise<void> {
  await tx.sharedService.deleteMany({ where: { sharedId: shared.id } });
  await tx.sharedService.createMany({ data: skidIds.map((skidId) => ({ sharedId: shared.id, skidId, clientId: shared.clientId })) });
}

export async function setArea(tx: Reader, skidId: string, fromDay: string, areaM2: number): Promise<void> {
  const key = { skidId, fromDay: dateOf(fromDay) };
  await tx.skidArea.upsert({ where: { skidId_fromDay: key }, create: { ...key, areaM2 }, update: { areaM2 } });
}

/** The skid is held, so that two who change its area do so one after the other. */
export async function shrinkArea(tx: Reader, skidId: string, fromDay: string, byM2: number): Promise<boolean> {
  await tx.$queryRaw`SELECT 1 FROM skid WHERE id = ${skidId}::uuid FOR UPDATE`;
  const day = dateOf(fromDay);
  const areas = await tx.skidArea.findMany({ where: { skidId }, orderBy: { fromDay: 'asc' } });
  const present = areas.findLast((area) => area.fromDay <= day);
  const later = areas.filter((area) => area.fromDay > day);
  if (present === undefined || [present, ...later].some(({ areaM2 }) => areaM2 - byM2 <= 0)) return false;
  await setArea(tx, skidId, fromDay, present.areaM2 - byM2);
  await tx.skidArea.updateMany({ where: { skidId, fromDay: { gt: day } }, data: { areaM2: { decrement: byM2 } } });
  return true;
}

export async function removeArea(tx: Reader, skidId: string, fromDay: string): Promise<boolean> {
  const { count } = await tx.skidArea.deleteMany({ where: { skidId, fromDay: dateOf(fromDay) } });
  return count === 1;
}

export const stateChangesOf = (reader: Reader, skidId: string) =>
  reader.serviceStateChange.findMany({ where: { skidId }, orderBy: [{ at: 'desc' }, { id: 'desc' }] });

/** The skid is in the state of its latest change, in whichever order the changes were told. */
export async function changeState(tx: Reader, change: Prisma.ServiceStateChangeUncheckedCreateInput): Promise<void> {
  await tx.serviceStateChange.create({ data: change });
  await setLatestState(tx, change.skidId, change.state);
}

export async function takeBackState(tx: Reader, { skidId, at, state }: { skidId: string; at: Date; state: string }, before: string): Promise<void> {
  const [told] = await tx.serviceStateChange.findMany({ where: { skidId, at, state }, orderBy: { id: 'desc' }, take: 1, select: { id: true } });
  if (told === undefined) return;
  await tx.serviceStateChange.delete({ where: { id: told.id } });
  await setLatestState(tx, skidId, before);
}

async function setLatestState(tx: Reader, skidId: string, otherwise: string): Promise<void> {
  const latest = (await stateChangesOf(tx, skidId))[0];
  await tx.skid.update({ where: { id: skidId }, data: { serviceState: latest?.state ?? otherwise, version: { increment: 1 } } });
}
